package drill

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
)

// salted is the balance of a tank that salt is added to, in any one set of units.
type salted struct {
	volume, density  float64
	strength, target float64
	purity, moisture float64
}

// solve finds the salt as delivered.
func (s salted) solve() float64 {
	pure := (1 - s.moisture) * s.purity
	return s.volume * s.density * (s.target - s.strength) / (pure - s.target*(pure+s.moisture))
}

// with is the balance for another strength.
func (s salted) with(strength quantity.Strength) salted {
	s.strength = float64(strength)
	return s
}

// weak is a tank that is too weak.
type weak struct {
	tank    tank
	request brine.CorrectRequest
	result  brine.Correction
	water   quantity.Density
	glass   *glass
}

// weakTank asks for the salt that brings a tank to target; from level 2 it is rock
// salt as it is delivered, at level 3 the strength is behind a reading.
func weakTank(d *draw) (sketch, error) {
	w := weak{tank: oneOf(d, d.Shop.tanks())}
	target := d.target()
	low, high := max(0.01, target-0.08), target-0.015
	r := &w.request
	r.Target, r.With, r.RockSalt, r.Instrument = target, brine.AddSalt, d.rockSalt(), d.instrument()
	r.Volume, r.Temperature = d.partly(w.tank.full, 0.4, 0.9), d.outdoors()
	if d.Level < Highest {
		r.Strength = d.strength(low, high)
	} else {
		g, err := d.glass(low, high)
		if err != nil {
			return sketch{}, err
		}
		w.glass, r.Temperature, r.Strength = &g, g.sample.Temperature, g.result.True
	}
	var err error
	if w.result, err = brine.Correct(*r); err != nil {
		return sketch{}, err
	}
	if w.water, err = waterDensity(r.Temperature); err != nil {
		return sketch{}, err
	}
	return w.sketch(d), nil
}

// sketch puts question, answer and mistakes together.
func (w weak) sketch(d *draw) sketch {
	var out sketch
	out.Question, out.Args = w.question(d.Level)
	out.Answer = massAnswer(w.result.Salt)
	out.Working.Correct, out.Working.Correction = &w.request, &w.result
	r := w.request
	hand := salted{
		volume: d.num(r.Volume), density: d.num(w.result.TankDensity), strength: d.num(r.Strength), target: d.num(r.Target),
		purity: d.num(r.RockSalt.Purity), moisture: d.num(r.RockSalt.Moisture),
	}
	if w.glass != nil {
		hand.strength = w.glass.byRule
		w.glass.note(&out.Working)
	}
	out.hand = hand.solve()
	out.Mistakes = w.mistakes(d.Level)
	return out
}

func (w weak) question(level int) (string, []quantity.Quantity) {
	r := w.request
	text, args := "The tank %v holds %v of brine. ", []quantity.Quantity{Word(w.tank.name), r.Volume}
	if w.glass == nil {
		text = "The tank %v holds %v of brine of %v at %v. "
		args = append(args, r.Strength, r.Temperature)
	} else {
		more, facts := w.glass.sentence()
		text, args = text+more, append(args, facts...)
	}
	text += "It is to have %v. The brine in it weighs %v, water %v. "
	args = append(args, r.Target, w.result.TankDensity, w.water)
	if level == 1 {
		return text + "How much pure, dry salt do you add?", args
	}
	text += "The rock salt holds %v of water as delivered, and the dry salt is %v pure. How much of it do you add?"
	return text, append(args, r.RockSalt.Moisture, r.RockSalt.Purity)
}

func (w weak) mistakes(level int) []Mistake {
	r := w.request
	b := salted{
		volume: float64(r.Volume), density: float64(w.result.TankDensity), strength: float64(r.Strength), target: float64(r.Target),
		purity: float64(r.RockSalt.Purity), moisture: float64(r.RockSalt.Moisture),
	}
	mass := func(x float64) quantity.Quantity { return quantity.Mass(x) }
	var out []Mistake
	if w.glass != nil {
		out = append(out,
			noTemperature.to(mass(b.with(w.glass.reading).solve())),
			wrongWay.to(mass(b.with(w.glass.theWrongWay()).solve())))
	}
	if level > 1 {
		pure := b
		pure.purity, pure.moisture = 1, 0
		out = append(out, asPure.to(mass(pure.solve())))
	}
	thin := b
	thin.density = float64(w.water)
	short := b.volume * (b.target - b.strength)
	return append(out,
		asWater.to(mass(thin.solve())),
		ownWeight.to(mass(short*b.density/(b.purity*(1-b.moisture)))),
		ofVolume.to(mass(short*thin.density)))
}
