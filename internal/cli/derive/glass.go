package derive

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/working"
)

// Glass goes from what is in the jar to what a true instrument shows, and to the offset.
func Glass(v show.View, r brine.GlassTest, g brine.GlassResult) []report.Step {
	p := begin(v)
	i, t := r.Sample.Instrument, r.Sample.Temperature
	what := p.Say("fresh water at %v, Laliberte (2009)", t)
	if r.Salt > 0 {
		salt, water := p.grams(r.Salt), p.grams(r.Water)
		p.Step("Strength of the brine", "100 x salt / (salt + water)", "%", salt, salt, water)
		what = p.Say("brine of %v at %v, Laliberte (2009)", g.Strength, t)
	}
	density := p.Read("Density of it", what, p.Density(g.Density))
	if i.Scale.Floats() {
		p.Step("Density of the mark at which a true one floats", "density x size of the glass", density.Unit(), density,
			p.glass(t, quantity.Temperature(i.Calibration)))
	}
	expected := p.Read("Reading of a true one", "the mark that was made for that density", p.plain(i.Scale.Quantity(g.Expected)))
	off := p.parts(g.Sure, func(half float64) working.Term { return p.plain(i.Scale.Quantity(half)) })
	offset := p.Step("Shows too much", "reading - reading of a true one", off.Unit(), p.plain(r.Sample.Shown()), expected)
	p.Step("At most", "offset + off", off.Unit(), offset, off)
	p.Step("At least", "offset - off", off.Unit(), offset, off)
	return p.Steps()
}

// grams is a small weight, as a kitchen scale shows it.
func (p sheet) grams(m quantity.Mass) working.Term { return working.Number(1000*float64(m), "g") }
