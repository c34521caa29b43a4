package cli

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// readingFigures are what a reading means, for every command that takes one.
func (s *setting) readingFigures(r brine.ReadingResult) []report.Figure {
	return []report.Figure{
		s.figure("apparent_strength", "Apparent strength", r.Apparent),
		s.figure("true_strength", "True strength", r.True),
		s.figure("specific_gravity", "Specific gravity, 60/60 F", r.Gravity()),
		s.figure("density", s.show("Density at %v", r.Sample.Temperature), r.Density),
		s.figure("salt_per_volume", "Salt in it", r.SaltPerVolume),
	}
}

// densityNotes say when densities were asked for outside their fit.
func densityNotes(s *setting, w quantity.Strength, t quantity.Temperature) []string {
	if len(solution.OutOfRange(solution.DensityFit, solution.Brine(float64(w)), float64(t))) == 0 {
		return nil
	}
	return []string{s.show("The density fit for brine begins at %v; below it the strength may be off by 0.1.", quantity.Celsius(0))}
}

// readingWorking goes from the mark on the glass to the strength.
func readingWorking(s *setting, r brine.ReadingResult) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	density := s.workSample(p, r)
	s.interpolate(p, r, density)
	if r.Clamped {
		p.steps = p.steps[:len(p.steps)-1]
		p.read("No brine holds that here", s.show("taken as the nearest that there is at %v", r.Sample.Temperature), p.percent(r.True))
	}
	return p.steps
}

// workSample finds the density of the sample.
func (s *setting) workSample(p *pocket, r brine.ReadingResult) term {
	i := r.Sample.Instrument
	mark := p.density(r.MarkDensity)
	if i.Scale == gauge.Weighed {
		return p.read("Density of the sample", "as weighed", mark)
	}
	cal := quantity.Temperature(i.Calibration)
	p.read(s.show("Density for which the mark %v was made", r.Sample.Shown()),
		s.show("from the scale, at its %v", cal), mark)
	glass := p.glass(r.Sample.Temperature, cal)
	return p.step("Density of the sample", "density of the mark / size of the glass", "{} / {}",
		[]term{mark, glass}, mark.value/glass.value, mark.unit)
}

// glass is the size of a hydrometer in the sample. The rule for it is stated in the units
// of the thermometer at hand.
func (p *pocket) glass(sample, cal quantity.Temperature) term {
	perDegree, here, there := gauge.GlassExpansion, sample.Celsius(), cal.Celsius()
	if p.system == quantity.US {
		perDegree, here, there = gauge.GlassExpansion*5/9, sample.Fahrenheit(), cal.Fahrenheit()
	}
	rate, now, then := number(perDegree, ""), number(here, ""), number(there, "")
	return p.step("Size of the glass against the size when it was marked",
		"1 + expansion a degree x (sample temperature - calibration)", "1 + {} x ({} - {})",
		[]term{rate, now, then}, 1+rate.value*(now.value-then.value), "")
}

// expectedWorking goes from brine of a strength to what an instrument shows in it: the way
// of a reading, backwards.
func expectedWorking(s *setting, i gauge.Instrument, w quantity.Strength, t quantity.Temperature, reading float64) []report.Step {
	rho, err := balance.SaltBrine(w).Density(t)
	if !s.globals.Working || err != nil {
		return nil
	}
	p := &pocket{system: s.system}
	density := p.read("Density of the brine when it is read", s.show("brine of %v at %v, Laliberte (2009)", w, t), p.density(rho))
	if i.Scale == gauge.Weighed {
		return p.steps
	}
	cal := quantity.Temperature(i.Calibration)
	glass := p.glass(t, cal)
	p.step("Density of the mark at which the hydrometer floats", "density x size of the glass", "{} x {}", []term{density, glass}, density.value*glass.value, density.unit)
	p.steps = append(p.steps, report.Step{
		What: "Reading to expect", Formula: s.show("the mark that was made for that density, at its %v", cal), Result: s.show("%v", i.Scale.Quantity(reading)),
	})
	return p.steps
}

// interpolate finds the strength between two whole percents of the density table.
func (s *setting) interpolate(p *pocket, r brine.ReadingResult, density term) {
	low := math.Min(math.Floor(100*float64(r.True)), 26)
	at := func(percent float64) (term, bool) {
		rho, err := solution.Density(solution.Brine(percent/100), float64(r.Sample.Temperature))
		return p.density(quantity.Density(rho)), err == nil
	}
	below, ok1 := at(low)
	above, ok2 := at(low + 1)
	if !ok1 || !ok2 {
		return
	}
	source := s.show("density of brine at %v, Laliberte (2009)", r.Sample.Temperature)
	p.read(s.show("Density at %v", quantity.Strength(low/100)), source, below)
	p.read(s.show("Density at %v", quantity.Strength((low+1)/100)), source, above)
	base := number(low, "")
	p.step("Strength, between the two",
		"lower percent + (density - lower density) / (upper density - lower density)", "{} + ({} - {}) / ({} - {})",
		[]term{base, density, below, above, below},
		base.value+(density.value-below.value)/(above.value-below.value), "%")
	p.read("True strength, from the density formula itself, which bends a little between", "Laliberte (2009)", p.percent(r.True))
}
