package drill

import (
	"math"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// readGlass asks for the true strength of a reading; at level 3 for the salt in the tank, or
// whether the tank may be pumped.
func readGlass(d *draw) (draft, error) {
	target := d.target()
	g, err := d.glass(max(0.05, target-0.06), min(0.26, target+0.015))
	if err != nil {
		return draft{}, err
	}
	switch {
	case d.Level < Highest:
		return trueStrength(g), nil
	case len(d.Shop.tanks()) == 0 || d.rng.IntN(2) == 0:
		return mayBePumped(d, g)
	}
	return saltHeld(d, g), nil
}

// trueStrength asks for no more than the strength.
func trueStrength(g glass) draft {
	var out draft
	more, facts := g.sentence()
	out.Question = "You take a sample of brine. " + more + "How strong is the brine in truth?"
	out.Args = facts
	out.Answer = strengthAnswer(g.result.True)
	out.byHand = 100 * g.byRule
	out.Mistakes = g.mistakes(func(s quantity.Strength) quantity.Quantity { return s })
	g.note(&out.Working)
	return out
}

// saltHeld asks for the weight of the salt in a tank.
func saltHeld(d *draw, g glass) draft {
	t := oneOf(d, d.Shop.tanks())
	volume := d.partly(t.WorkingVolume, 0.4, 0.9)
	rho := g.result.Density
	var out draft
	more, facts := g.sentence()
	out.Question = "The tank %v holds %v of brine. " + more + "The brine weighs %v. How much salt is dissolved in it?"
	out.Args = append(append([]quantity.Quantity{fault.Word(t.Name), volume}, facts...), rho)
	brineMass := volume.Mass(rho)
	out.Answer = massAnswer(brineMass.Times(g.result.True))
	out.byHand = d.num(volume) * d.num(rho) * g.byRule
	water := float64(g.result.Gravity()) // 60/60 F, near enough to tell the slip by
	out.Mistakes = append(g.mistakes(func(s quantity.Strength) quantity.Quantity { return brineMass.Times(s) }),
		asWater.to(quantity.Mass(float64(brineMass.Times(g.result.True))/water)))
	g.note(&out.Working)
	out.Working.Closing = saltIn(volume, rho, g.result.True)
	return out
}

// surely is the least difference between a strength and the ends of the band at which the rule
// in the question leads to the right word.
const surely = 0.001

// mayBePumped asks for the decision on a tank.
func mayBePumped(d *draw, g glass) (draft, error) {
	b := d.Shop.Band
	b = yard.Band{Target: printedStrength(b.Target), Low: printedStrength(b.Low), High: printedStrength(b.High)}
	for _, end := range []quantity.Strength{b.Low, b.High} {
		if math.Abs(float64(g.result.True-end)) < surely {
			return draft{}, errUnfit
		}
	}
	request := brine.CheckRequest{Sample: g.sample, Band: b, Volume: d.volume(500*quantity.Gallon, 1500*quantity.Gallon), RockSalt: d.rockSalt()}
	result, err := brine.Check(request)
	if err != nil {
		return draft{}, err
	}
	var out draft
	more, facts := g.sentence()
	out.Question = "A tank with %v of brine may be pumped when it has %v to %v, in truth. " + more + "May it be pumped, or is it too strong or too weak?"
	out.Args = append([]quantity.Quantity{request.Volume, b.Low, b.High}, facts...)
	out.Answer = wordAnswer(result.Decision.String(), decisions())
	out.Mistakes = g.mistakes(func(s quantity.Strength) quantity.Quantity { return fault.Word(b.Judge(s).String()) })
	g.note(&out.Working)
	out.Working.Check, out.Working.CheckResult = &request, &result
	return out, nil
}

func decisions() []string {
	return []string{yard.MayPump.String(), yard.TooStrong.String(), yard.TooWeak.String()}
}
