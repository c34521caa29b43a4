package derive

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/sure"
	"brineyard/internal/working"
)

// samples is the mean of several samples.
func (p sheet) samples(r brine.ReadingResult) {
	var names []string
	var terms []working.Term
	for i, one := range r.Singles {
		p.strength(p.sample(one.Sample), one)
		names = append(names, [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"}[i])
		terms = append(terms, working.Percent(one.True))
	}
	n := working.Number(float64(len(terms)), "")
	p.Step("True strength, the mean of the samples", "("+strings.Join(names, " + ")+") / samples", "%", append(terms, n)...)
}

// budget writes what makes the strength unsure: each part, and what they come to together.
func (p sheet) budget(r brine.ReadingResult) {
	if r.Sure.Exact() {
		return
	}
	off := p.parts(r.Sure, func(half float64) working.Term { return working.Percent(quantity.Strength(half)) })
	strength := working.Percent(r.True)
	if r.Range.High > r.True {
		p.Step("The most that it may be", "strength + off", "%", strength, off)
	}
	if r.Range.Low > 0 {
		p.Step("The least that it may be", "strength - off", "%", strength, off)
	}
}

// Amount writes what makes a correction's amount unsure.
func Amount(v show.View, c brine.Correction) []report.Step {
	p := begin(v)
	if c.Sure.Exact() {
		return nil
	}
	amount := quantity.Quantity(c.Salt)
	unit := func(half float64) working.Term { return p.Of(c.Salt * quantity.Mass(half)) }
	switch c.Additive {
	case brine.AddWater:
		amount, unit = c.Water, func(half float64) working.Term { return p.Of(c.Water * quantity.Volume(half)) }
	case brine.AddStock:
		amount, unit = c.Stock, func(half float64) working.Term { return p.Of(c.Stock * quantity.Volume(half)) }
	}
	p.parts(c.Sure, unit)
	p.Tell(p.Say("So the right amount, near %v, lies 95 times in 100", amount), "worked out for both ends of the strength", p.AmountRange(c))
	return p.Steps()
}

// BatchRange writes what the heel leaves open of a batch's water and salt.
func BatchRange(v show.View, b brine.Batch, span brine.BatchRange) []report.Step {
	p := begin(v)
	if !span.SaltSure.Exact() {
		off := p.parts(span.SaltSure, func(half float64) working.Term { return p.Of(quantity.Mass(half)) })
		p.Step("The most salt that it may take", "salt + off", off.Unit(), p.Of(b.SaltToLoad), off)
	}
	if !span.WaterSure.Exact() {
		off := p.parts(span.WaterSure, func(half float64) working.Term { return p.Of(quantity.Volume(half)) })
		p.Step("The most water that it may take", "water + off", off.Unit(), p.Of(b.Water), off)
	}
	return p.Steps()
}

// parts lists a budget. Errors that are spread evenly are added as chance adds them: the range that holds
// 95 of 100 sums.
func (p sheet) parts(b sure.Budget, term func(half float64) working.Term) working.Term {
	for _, part := range b.Parts {
		p.Read("May be off either way, by "+part.Name, "spread evenly", term(part.Half))
	}
	if b.Mixing > 0 {
		p.Read("May be off either way, by how samples scatter, or by its last reading", "95 times in 100", term(b.Mixing))
	}
	if len(b.Parts) == 1 && b.Mixing == 0 {
		return p.Step("Off either way, 95 times in 100", "0.95 x spread", term(1).Unit(), term(b.Parts[0].Half))
	}
	return p.Read("Off either way together, 95 times in 100", "evenly spread errors added by chance", term(b.Half()))
}
