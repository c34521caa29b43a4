package drill

import (
	"brineyard/internal/balance"
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

// solve finds the water that fits, the brine that is drawn off first, and the volume that
// would come of it with nothing drawn off.
func (w watered) solve() (added, drawn, whole float64) {
	mass := w.volume * w.tank
	water := dose(balance.Water(), mass, w.strength, w.target)
	whole = (mass + water) / w.end
	if w.capacity > 0 && whole > w.capacity {
		stays := w.capacity / whole
		return water / w.water * stays, w.volume * (1 - stays), whole
	}
	return water / w.water, 0, whole
}

// strong is a tank that is too strong.
type strong struct {
	offTarget
	drawOff bool // the brine drawn off is asked for, not the water
}

// strongTank asks for the water that brings a tank to target; from level 2 the question gives
// a reading, at level 3 the tank has no room for the water.
func strongTank(d *draw) (draft, error) {
	s := strong{offTarget: offTarget{tank: oneOf(d, d.Shop.tanks())}}
	target := d.target()
	r := &s.request
	r.Target, r.With, r.RockSalt, r.Instrument = target, brine.AddWater, yard.PureSalt(), d.instrument()
	r.Volume, r.Temperature = d.partly(s.tank.WorkingVolume, 0.4, 0.8), d.usual()
	if d.Level == Highest {
		r.Capacity = d.roundVolume(s.tank.Capacity)
		r.Volume = d.partly(r.Capacity, 0.92, 0.99)
		s.drawOff = d.rng.IntN(2) == 0
	}
	if err := s.drawStrength(d, d.Level > 1, target+0.01, min(0.26, target+0.03)); err != nil {
		return draft{}, err
	}
	var err error
	if s.result, err = brine.Correct(*r); err != nil {
		return draft{}, err
	}
	if (s.result.DrawOffFirst > 0) != (d.Level == Highest) {
		return draft{}, errUnfit
	}
	return s.draft(d), nil
}

// draft puts question, answer and mistakes together.
func (s strong) draft(d *draw) draft {
	out := s.begin(func(w quantity.Strength) quantity.Quantity {
		b := s.balance(si)
		b.strength = float64(w)
		return s.asked(b)
	})
	out.Question, out.Args = s.question()
	out.Answer = volumeAnswer(s.result.Water)
	if s.drawOff {
		out.Answer = volumeAnswer(s.result.DrawOffFirst)
	}
	byHand := s.balance(d.num)
	byHand.strength = s.strengthByHand(d)
	out.byHand = float64(s.asked(byHand))
	out.Mistakes = append(out.Mistakes, s.mistakes()...)
	return out
}

// asked is the part of a balance that is asked for.
func (s strong) asked(w watered) quantity.Volume {
	added, drawn, _ := w.solve()
	if s.drawOff {
		return quantity.Volume(drawn)
	}
	return quantity.Volume(added)
}

func (s strong) question() (string, []quantity.Quantity) {
	r, c := s.request, s.result
	text, args := s.opening(c.AddDensity)
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

// balance is the problem in the numbers that num makes of its quantities.
func (s strong) balance(num func(quantity.Quantity) float64) watered {
	r, c := s.request, s.result
	return watered{
		volume: num(r.Volume), strength: num(r.Strength), target: num(r.Target),
		tank: num(c.TankDensity), water: num(c.AddDensity), end: num(c.EndDensity),
		capacity: num(r.Capacity),
	}
}

// mistakes are those of the sum itself.
func (s strong) mistakes() []Mistake {
	b := s.balance(si)
	even, roomy := b, b
	even.tank, even.water, even.end = 1, 1, 1
	roomy.capacity = 0
	added, _, whole := roomy.solve()
	out := []Mistake{byVolume.to(s.asked(even))}
	switch {
	case s.drawOff:
		return append(out, overflowOnly.to(quantity.Volume(whole-b.capacity)))
	case b.capacity > 0:
		return append(out, noDrawOff.to(quantity.Volume(added)))
	}
	return append(out,
		ofOldStrength.to(quantity.Volume(added*b.target/b.strength)),
		ofVolume.to(quantity.Volume(b.volume*(b.strength-b.target))))
}
