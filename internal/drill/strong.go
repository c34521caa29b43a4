package drill

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// watered is the balance of a tank that water is added to, in any one set of units.
type watered struct {
	volume, strength, target float64
	tank, water, end         float64 // densities
	capacity                 float64 // 0 where there is room
}

// solve finds the water that fits, what is drawn off first, and the volume that
// would come of it with nothing drawn off.
func (w watered) solve() (added, drawn, whole float64) {
	added = w.volume * w.tank * (w.strength/w.target - 1) / w.water
	whole = w.volume * w.tank * w.strength / w.target / w.end
	if w.capacity > 0 && whole > w.capacity {
		share := w.capacity / whole
		return added * share, w.volume * (1 - share), whole
	}
	return added, 0, whole
}

// with is the balance for another strength.
func (w watered) with(s quantity.Strength) watered {
	w.strength = float64(s)
	return w
}

// strong is a tank that is too strong.
type strong struct {
	tank    tank
	request brine.CorrectRequest
	result  brine.Correction
	glass   *glass
	drawOff bool // what is to be drawn off is asked for, not the water
}

// strongTank asks for the water that brings a tank to target; from level 2 the
// strength is behind a reading, at level 3 the tank has no room for the water.
func strongTank(d *draw) (sketch, error) {
	s := strong{tank: oneOf(d, d.Shop.tanks())}
	target := d.target()
	low, high := target+0.01, min(0.26, target+0.03)
	r := &s.request
	r.Target, r.With, r.RockSalt, r.Instrument = target, brine.AddWater, yard.PureSalt, d.instrument()
	r.Volume, r.Temperature = d.partly(s.tank.full, 0.4, 0.8), d.usual()
	if d.Level == Highest {
		r.Capacity = d.roundVolume(s.tank.capacity)
		r.Volume = d.partly(r.Capacity, 0.92, 0.99)
		s.drawOff = d.rng.IntN(2) == 0
	}
	if d.Level == 1 {
		r.Strength = d.strength(low, high)
	} else {
		g, err := d.glass(low, high)
		if err != nil {
			return sketch{}, err
		}
		s.glass, r.Temperature, r.Strength = &g, g.sample.Temperature, g.result.True
	}
	c, err := brine.Correct(*r)
	if err != nil {
		return sketch{}, err
	}
	if (c.DrawOffFirst > 0) != (d.Level == Highest) {
		return sketch{}, errUnfit
	}
	s.result = c
	return s.sketch(d), nil
}

// sketch puts question, answer and mistakes together.
func (s strong) sketch(d *draw) sketch {
	var out sketch
	out.Question, out.Args = s.question()
	out.Working.Correct, out.Working.Correction = &s.request, &s.result
	out.Answer = volumeAnswer(s.result.Water)
	if s.drawOff {
		out.Answer = volumeAnswer(s.result.DrawOffFirst)
	}
	if s.glass != nil {
		s.glass.note(&out.Working)
	}
	out.hand = s.asked(s.byHand(d))
	out.Mistakes = s.mistakes()
	return out
}

// asked is what of a balance is asked for.
func (s strong) asked(w watered) float64 {
	added, drawn, _ := w.solve()
	if s.drawOff {
		return drawn
	}
	return added
}

func (s strong) question() (string, []quantity.Quantity) {
	r, c := s.request, s.result
	text, args := "The tank %v holds %v of brine. ", []quantity.Quantity{Word(s.tank.name), r.Volume}
	if s.glass == nil {
		text = "The tank %v holds %v of brine of %v at %v. "
		args = append(args, r.Strength, r.Temperature)
	} else {
		more, facts := s.glass.sentence()
		text, args = text+more, append(args, facts...)
	}
	text += "It is to have %v. The brine in it weighs %v, water %v. "
	args = append(args, r.Target, c.TankDensity, c.AddDensity)
	if r.Capacity == 0 {
		return text + "How much water do you add?", args
	}
	text += "Brine on target weighs %v. The tank holds no more than %v. "
	args = append(args, c.EndDensity, r.Capacity)
	if s.drawOff {
		return text + "How much brine do you draw off before you add water, to end with a full tank on target?", args
	}
	return text + "You first draw off enough to end with a full tank on target. How much water do you then add?", args
}

// balance is the problem in SI.
func (s strong) balance() watered {
	r, c := s.request, s.result
	return watered{
		volume: float64(r.Volume), strength: float64(r.Strength), target: float64(r.Target),
		tank: float64(c.TankDensity), water: float64(c.AddDensity), end: float64(c.EndDensity),
		capacity: float64(r.Capacity),
	}
}

// byHand is the problem in the numbers that the question shows.
func (s strong) byHand(d *draw) watered {
	r, c := s.request, s.result
	w := watered{
		volume: d.num(r.Volume), strength: d.num(r.Strength), target: d.num(r.Target),
		tank: d.num(c.TankDensity), water: d.num(c.AddDensity), end: d.num(c.EndDensity),
		capacity: d.num(r.Capacity),
	}
	if s.glass != nil {
		w.strength = s.glass.byRule
	}
	return w
}

func (s strong) mistakes() []Mistake {
	b := s.balance()
	volume := func(x float64) quantity.Quantity { return quantity.Volume(x) }
	var out []Mistake
	if s.glass != nil {
		out = append(out,
			noTemperature.to(volume(s.asked(b.with(s.glass.reading)))),
			wrongWay.to(volume(s.asked(b.with(s.glass.theWrongWay())))))
	}
	even := b
	even.tank, even.water, even.end = 1, 1, 1
	out = append(out, byVolume.to(volume(s.asked(even))))
	added, _, whole := b.solve()
	switch {
	case s.drawOff:
		return append(out, overflowOnly.to(volume(whole-b.capacity)))
	case b.capacity > 0:
		b.capacity = 0
		added, _, _ = b.solve()
		return append(out, noDrawOff.to(volume(added)))
	}
	return append(out,
		ofOldStrength.to(volume(added*b.target/b.strength)),
		ofVolume.to(volume(b.volume*(b.strength-b.target))))
}
