package drill

import (
	"math"

	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// readGlass asks for the strength behind a reading; at level 3 for what follows
// from it: the salt in the tank, or whether the tank may be pumped.
func readGlass(d *draw) (sketch, error) {
	target := d.target()
	g, err := d.glass(max(0.05, target-0.06), min(0.26, target+0.015))
	if err != nil {
		return sketch{}, err
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
func trueStrength(g glass) sketch {
	var out sketch
	more, facts := g.sentence()
	out.Question = "You take a sample of brine. " + more + "How strong is the brine in truth?"
	out.Args = facts
	out.Answer = strengthAnswer(g.result.True)
	out.hand = 100 * g.byRule
	out.Mistakes = []Mistake{noTemperature.to(g.reading), wrongWay.to(g.theWrongWay())}
	g.note(&out.Working)
	return out
}

// saltHeld asks for the weight of the salt in a tank.
func saltHeld(d *draw, g glass) sketch {
	t := oneOf(d, d.Shop.tanks())
	volume := d.partly(t.full, 0.4, 0.9)
	rho := g.result.Density
	var out sketch
	more, facts := g.sentence()
	out.Question = "The tank %v holds %v of brine. " + more + "The brine weighs %v. How much salt is dissolved in it?"
	out.Args = append(append([]quantity.Quantity{Word(t.name), volume}, facts...), rho)
	brineMass := volume.Mass(rho)
	out.Answer = massAnswer(brineMass.Times(g.result.True))
	out.hand = d.num(volume) * d.num(rho) * g.byRule
	water := float64(g.result.Gravity()) // 60/60 F, near enough to tell the slip by
	out.Mistakes = []Mistake{
		noTemperature.to(brineMass.Times(g.reading)),
		wrongWay.to(brineMass.Times(g.theWrongWay())),
		asWater.to(quantity.Mass(float64(brineMass.Times(g.result.True)) / water)),
	}
	g.note(&out.Working)
	out.Working.Closing = saltIn(volume, rho, g.result.True)
	return out
}

// surely is how far a strength has to be from the ends of the band, so that the
// rule in the question leads to the same word.
const surely = 0.001

// mayBePumped asks for the decision on a tank.
func mayBePumped(d *draw, g glass) (sketch, error) {
	b := d.Shop.Band
	b = yard.Band{Target: printedStrength(b.Target), Low: printedStrength(b.Low), High: printedStrength(b.High)}
	for _, end := range []quantity.Strength{b.Low, b.High} {
		if math.Abs(float64(g.result.True-end)) < surely {
			return sketch{}, errUnfit
		}
	}
	request := brine.CheckRequest{Sample: g.sample, Band: b, Volume: d.volume(500*quantity.Gallon, 1500*quantity.Gallon), RockSalt: d.rockSalt()}
	result, err := brine.Check(request)
	if err != nil {
		return sketch{}, err
	}
	var out sketch
	more, facts := g.sentence()
	out.Question = "A tank with %v of brine may be pumped when it has %v to %v, in truth. " + more + "May it be pumped, or is it too strong or too weak?"
	out.Args = append([]quantity.Quantity{request.Volume, b.Low, b.High}, facts...)
	out.Answer = wordAnswer(result.Decision.String(), decisions())
	out.Mistakes = []Mistake{
		noTemperature.to(Word(decide(b, g.reading))),
		wrongWay.to(Word(decide(b, g.theWrongWay()))),
	}
	g.note(&out.Working)
	out.Working.Check, out.Working.CheckResult = &request, &result
	return out, nil
}

func decisions() []string {
	return []string{yard.MayPump.String(), yard.TooStrong.String(), yard.TooWeak.String()}
}

// decide places a strength, ends of the band included.
func decide(b yard.Band, s quantity.Strength) string {
	switch {
	case s > b.High+1e-9:
		return yard.TooStrong.String()
	case s < b.Low-1e-9:
		return yard.TooWeak.String()
	}
	return yard.MayPump.String()
}
