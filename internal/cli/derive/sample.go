package derive

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/working"
)

// Reading goes from the mark on the glass to the strength.
func Reading(v show.View, r brine.ReadingResult) []report.Step {
	p := begin(v)
	if len(r.Singles) > 0 {
		p.samples(r)
	} else {
		p.strength(p.sample(r.Sample), r)
	}
	p.budget(r)
	return p.Steps()
}

// sample finds the density of a sample.
func (p sheet) sample(s brine.Sample) working.Term {
	i := s.Instrument
	cal := quantity.Temperature(i.Calibration)
	mark, _ := i.Density(s.Reading, i.Calibration)
	if i.Offset != 0 {
		p.Step("Reading of a true instrument", "reading - what it shows too much", p.Unit(s.Shown()),
			p.plain(s.Shown()), p.plain(i.Scale.Quantity(i.Offset)))
	}
	if !i.Scale.Floats() {
		return p.Read("Density of the sample", "as weighed", p.Density(quantity.Density(s.Reading-i.Offset)))
	}
	term := p.Read(p.Say("Density for which the mark %v was made", i.Scale.Quantity(s.Reading-i.Offset)), p.Say("from the scale, at its %v", cal), p.Density(quantity.Density(mark)))
	return p.Step("Density of the sample", "density of the mark / size of the glass", term.Unit(), term, p.glass(s.Temperature, cal))
}

// plain is a quantity as a term.
func (p sheet) plain(q quantity.Quantity) working.Term {
	shown := q.In(p.System)
	return working.Number(shown.Value, shown.Unit)
}

// glass is the size of a hydrometer in the sample. The rule for it is stated in the units
// of the thermometer at hand.
func (p sheet) glass(sample, cal quantity.Temperature) working.Term {
	perDegree, here, there := gauge.GlassExpansion, sample.Celsius(), cal.Celsius()
	if p.US() {
		perDegree, here, there = gauge.GlassExpansion*5/9, sample.Fahrenheit(), cal.Fahrenheit()
	}
	return p.Step("Size of the glass against the size when it was marked",
		"1 + expansion a degree x (sample temperature - calibration)", "", working.Number(perDegree, ""), working.Number(here, ""), working.Number(there, ""))
}

// strength finds that of a density between two whole percents of the density table, and then
// from the formula of the density, which is not rounded on the way.
func (p sheet) strength(density working.Term, r brine.ReadingResult) {
	t, w := r.Temperature, r.True
	percent := math.Min(math.Floor(100*float64(w)), 26)
	at := func(percent float64) (working.Term, bool) {
		rho, err := solution.Density(solution.Brine(percent/100), float64(t))
		return p.Density(quantity.Density(rho)), err == nil
	}
	below, known := at(percent)
	above, also := at(percent + 1)
	if known && also {
		source := p.Say("density of brine at %v, Laliberte (2009)", t)
		p.Read(p.Say("Density at %v", quantity.Strength(percent/100)), source, below)
		p.Read(p.Say("Density at %v", quantity.Strength((percent+1)/100)), source, above)
		p.Step("Strength, between the two", "lower percent + (density - lower density) / (upper density - lower density)", "%",
			working.Number(percent, ""), density, below, above, below)
	}
	if !r.Clamped {
		p.Read("True strength, from the density formula itself, which bends a little between", "Laliberte (2009)", working.Percent(w))
		return
	}
	p.Read("No brine holds that here", p.Say("taken as the nearest that there is at %v", t), working.Percent(w))
}

// Expected goes from brine of a strength to what an instrument shows in it: the way of a
// reading, backwards.
func Expected(v show.View, i gauge.Instrument, w quantity.Strength, t quantity.Temperature) []report.Step {
	rho, err := balance.SaltBrine(w).Density(t)
	if err != nil {
		return nil
	}
	p := begin(v)
	density := p.Read("Density of the brine when it is read", p.Say("brine of %v at %v, Laliberte (2009)", w, t), p.Density(rho))
	if !i.Scale.Floats() {
		return p.Steps()
	}
	cal := quantity.Temperature(i.Calibration)
	mark := p.Step("Density of the mark at which the hydrometer floats", "density x size of the glass", density.Unit(), density, p.glass(t, cal))
	if reading, ok := i.Reading(float64(p.DensityOf(mark)), i.Calibration); ok {
		p.Tell("Reading to expect", p.Say("the mark that was made for that density, at its %v", cal), p.Say("%v", p.Marked(i, reading)))
	}
	return p.Steps()
}
