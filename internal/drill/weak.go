package drill

import (
	"brineyard/internal/balance"
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
	return dose(balance.RockSalt(pure, quantity.Strength(s.moisture)), s.volume*s.density, s.strength, s.target)
}

// weak is a tank that is too weak.
type weak struct {
	offTarget
	water quantity.Density
}

// weakTank asks for the salt that brings a tank to target; from level 2 it is rock salt as it
// is delivered, at level 3 the question gives a reading.
func weakTank(d *draw) (draft, error) {
	w := weak{offTarget: offTarget{tank: oneOf(d, d.Shop.salted())}}
	target := d.target()
	r := &w.request
	r.Target, r.With, r.RockSalt, r.Instrument = target, brine.AddSalt, d.rockSalt(), d.instrument()
	r.Volume, r.Temperature = d.partly(w.tank.WorkingVolume, 0.4, 0.9), d.outdoors()
	if err := w.drawStrength(d, d.Level == Highest, max(0.01, target-0.08), target-0.015); err != nil {
		return draft{}, err
	}
	var err error
	if w.result, err = brine.Correct(*r); err != nil {
		return draft{}, err
	}
	if w.water, err = waterDensity(r.Temperature); err != nil {
		return draft{}, err
	}
	return w.draft(d), nil
}

// draft puts question, answer and mistakes together.
func (w weak) draft(d *draw) draft {
	out := w.begin(func(s quantity.Strength) quantity.Quantity {
		b := w.balance(si)
		b.strength = float64(s)
		return quantity.Mass(b.solve())
	})
	out.Question, out.Args = w.question(d.Level)
	out.Answer = massAnswer(w.result.Salt)
	byHand := w.balance(d.num)
	byHand.strength = w.strengthByHand(d)
	out.byHand = byHand.solve()
	out.Mistakes = append(out.Mistakes, w.mistakes(d.Level)...)
	return out
}

func (w weak) question(level int) (string, []quantity.Quantity) {
	text, args := w.opening(w.water)
	if level == 1 {
		return text + "How much pure, dry salt do you add?", args
	}
	text += "The rock salt holds %v of water as delivered, and the dry salt is %v pure. How much of it do you add?"
	return text, append(args, w.request.RockSalt.Moisture, w.request.RockSalt.Purity)
}

// balance is the problem in the numbers that num makes of its quantities.
func (w weak) balance(num func(quantity.Quantity) float64) salted {
	r := w.request
	return salted{
		volume: num(r.Volume), density: num(w.result.TankDensity), strength: num(r.Strength), target: num(r.Target),
		purity: num(r.RockSalt.Purity), moisture: num(r.RockSalt.Moisture),
	}
}

// mistakes are those of the sum itself.
func (w weak) mistakes(level int) []Mistake {
	b := w.balance(si)
	pure, thin := b, b
	pure.purity, pure.moisture = 1, 0
	thin.density = si(w.water)
	short := b.volume * (b.target - b.strength)
	var out []Mistake
	if level > 1 {
		out = append(out, asPure.to(quantity.Mass(pure.solve())))
	}
	return append(out,
		asWater.to(quantity.Mass(thin.solve())),
		ownWeight.to(quantity.Mass(short*b.density/(b.purity*(1-b.moisture)))),
		ofVolume.to(quantity.Mass(short*thin.density)))
}
