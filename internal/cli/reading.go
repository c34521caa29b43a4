package cli

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type readingOptions struct {
	instrument *readingFlags
	temp       *input[quantity.Temperature]
}

func newReading(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "reading",
		Short: "True strength behind an instrument's reading",
		Long: "reading tells the strength behind what an instrument shows. A hydrometer floats\n" +
			"at the density of the sample, and cold brine is denser: so the sample's\n" +
			"temperature goes with every reading.",
		Example: "  brineyard reading --hydrometer 23.3% --temp 40F\n" +
			"  brineyard reading --weigh 9.82lb/gal --temp 15C --units metric",
		Args: noArguments,
	}, &readingOptions{})
}

// flags defines the flags.
func (o *readingOptions) flags(f *pflag.FlagSet) {
	o.instrument = addReadingFlags(f)
	o.temp = temperatureFlag(f, "temp", "temperature of the sample; required")
}

// ask answers them.
func (o *readingOptions) ask(s *setting, _ []string) (reply, error) {
	sample, err := o.instrument.sample(s, o.temp)
	if err != nil {
		return reply{}, err
	}
	r, err := brine.Reading(sample)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	return shown(readingDocument(s, r), nil)
}

func readingDocument(s *setting, r brine.ReadingResult) *report.Document {
	if s.bare {
		return &report.Document{Figures: append(s.readingFigures(r), s.freezing(r.Freezing)...)}
	}
	d := &report.Document{
		Command: "reading",
		Title:   "Reading",
		Verdict: readingVerdict(s, r),
		Figures: append(s.readingFigures(r), s.freezing(r.Freezing)...),
		Working: readingWorking(s, r),
		Notes:   readingNotes(s, r),
		Next:    nextAfterReading,
	}
	return d
}

// readingVerdict names the true strength and by how much the scale misleads.
func readingVerdict(s *setting, r brine.ReadingResult) string {
	name, shown, t := scaleWords[r.Sample.Instrument.Scale], r.Sample.Shown(), r.Sample.Temperature
	off := printedPercent(r.Apparent) - printedPercent(r.True)
	way := "high"
	if off < 0 {
		way = "low"
	}
	switch {
	case r.Clamped && r.True > 0:
		return s.show("Saturated brine, true strength %v: at %v nothing stronger can be, though %s shows %v.", r.True, t, name, shown)
	case r.Clamped:
		return s.show("Fresh water: at %v nothing weaker can be, though %s shows %v.", t, name, shown)
	case math.Abs(off) < 0.05:
		return s.show("True strength %v: %s's %v reads true at %v.", r.True, name, shown, t)
	case r.Sample.Instrument.Scale == gauge.PercentSalt:
		return s.show("True strength %v: at %v %s's %v reads %.2f too %s.", r.True, t, name, shown, math.Abs(off), way)
	}
	return s.show("True strength %v: %s's %v would be %v without the thermometer, but at %v that is %.2f too %s.",
		r.True, name, shown, r.Apparent, t, math.Abs(off), way)
}

// printedPercent is a strength in percent as it is printed, so that a difference in
// a sentence is that of the numbers in it.
func printedPercent(w quantity.Strength) float64 { return math.Round(1e4*float64(w)) / 100 }

// readingFigures are what a reading means, for every command that takes one.
func (s *setting) readingFigures(r brine.ReadingResult) []report.Figure {
	return []report.Figure{
		s.figure("apparent_strength", "Apparent strength", r.Apparent),
		s.figure("true_strength", "True strength", r.True),
		s.figure("specific_gravity", "Specific gravity, 60/60 F", r.Gravity),
		s.figure("density", s.show("Density at %v", r.Sample.Temperature), r.Density),
		s.figure("salt_per_volume", "Salt in it", r.SaltPerVolume),
	}
}

// readingNotes say what to know of a reading.
func readingNotes(s *setting, r brine.ReadingResult) []string {
	var notes []string
	switch first := r.Freezing.First(); {
	case first.Found && first.Solid == solution.Ice:
		notes = append(notes, s.show("Ice forms first, at %v: on this side more salt lowers it.", temperatureOf(first)))
	case first.Found:
		notes = append(notes, s.show("Salt crystals (%s) form first, at %v: on this side more salt raises it.", first.Solid, temperatureOf(first)))
	}
	if r.Clamped {
		notes = append(notes, s.show("The reading lies just beyond what brine at %v can show; it was taken as %v.", r.Sample.Temperature, r.True))
	}
	if r.Solid {
		notes = append(notes, s.show("Brine this strong is part solid at %v: stir, let the sample clear, and read again.", r.Sample.Temperature))
	}
	return append(notes, densityNotes(s, r.True, r.Sample.Temperature)...)
}

// densityNotes say when densities were asked for outside their fit.
func densityNotes(s *setting, w quantity.Strength, t quantity.Temperature) []string {
	if len(solution.Limits(solution.DensityFit, solution.Brine(float64(w)), float64(t))) == 0 {
		return nil
	}
	return []string{s.show("The density fit for brine begins at %v; below it the strength may be off by 0.1.", quantity.Celsius(0))}
}

// readingWorking goes from the mark on the glass to the strength.
func readingWorking(s *setting, r brine.ReadingResult) []report.Step {
	if !s.globals.working {
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
	if !s.globals.working || err != nil {
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
		What: "Reading to expect", Formula: s.show("the mark that was made for that density, at its %v", cal), Result: s.show("%v", brine.OnScale(i, reading)),
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
