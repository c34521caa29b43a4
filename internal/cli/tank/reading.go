package tank

import (
	"math"
	"strconv"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

var readingCommand = run.Command{
	Screen: true,
	Use:    "reading [READING TEMPERATURE]",
	Short:  "True strength behind an instrument's reading",
	Long: "reading tells the strength behind what an instrument shows. A hydrometer\n" +
		"floats at the density of the sample. Cold brine is denser. So each reading\n" +
		"needs the temperature of the sample.",
	Example: "  brineyard reading --hydrometer 23.3% --temp 40F\n" +
		"  brineyard reading --weigh 9.82lb/gal --temp 15C --units metric",
	New:  func() run.Question { return &reading{} },
	Rows: true,
}

type reading struct{ sample brine.Sample }

// Bind binds the sample.
func (q *reading) Bind(b *bind.Set) {
	bind.Spoken(b, "23.5 38", bind.AReading, "temp")
	new(bind.Reading).BindSample(b, &q.sample, "temperature of the sample; required")
}

// Answer finds the strength.
func (q *reading) Answer(s *run.Session) (run.Reply, error) {
	r, err := brine.Reading(q.sample)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: append(s.View.ReadingFigures(r), s.View.Freezing(r.Freezing)...),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes = "Reading", readingVerdict(s.View, r), readingNotes(s.View, r)
			d.Next = "check says whether the tank may be pumped."
		},
		Working: func() []report.Step { return derive.Reading(s.View, r) },
	}, nil
}

// readingVerdict names the true strength and by how much the scale misleads.
func readingVerdict(v show.View, r brine.ReadingResult) string {
	name, shown, t := r.Sample.Instrument.Scale.Words(), r.Sample.Shown(), r.Sample.Temperature
	off := printedPercent(v, r.Apparent, r) - printedPercent(v, r.True, r)
	way := "high"
	if off < 0 {
		way = "low"
	}
	switch {
	case len(r.Singles) > 0:
		return v.Say("True strength %s: the mean of %d samples.", strengthIn(v, r), len(r.Singles))
	case r.Clamped && r.True > 0:
		return v.Say("Saturated brine, true strength %v: at %v nothing stronger can be, though %s shows %v.", r.True, t, name, shown)
	case r.Clamped:
		return v.Say("Fresh water: at %v nothing weaker can be, though %s shows %v.", t, name, shown)
	case math.Abs(off) < 0.05 && r.Sample.Instrument.Offset == 0:
		return v.Say("True strength %s: %s's %v reads true at %v.", strengthIn(v, r), name, shown, t)
	case r.Sample.Instrument.Scale == gauge.PercentSalt && r.Sample.Instrument.Offset == 0:
		return v.Say("True strength %s: at %v %s's %v reads %s too %s.", strengthIn(v, r), t, name, shown, offBy(v, off, r), way)
	}
	return v.Say("True strength %s: %s's %v would be %v without the thermometer, but at %v that is %s too %s.",
		strengthIn(v, r), name, shown, v.Sure(r.Apparent, r.Half), t, offBy(v, off, r), way)
}

// strengthIn shows the strength with its range, where it has one.
func strengthIn(v show.View, r brine.ReadingResult) string {
	if r.Sure.Exact() {
		return v.Say("%v", v.True(r))
	}
	return v.Say("%v (%s)", v.True(r), v.TrueRange(r))
}

// printedPercent is a strength in percent as it is printed, so that a difference in
// a sentence is that of the numbers in it.
func printedPercent(v show.View, w quantity.Strength, r brine.ReadingResult) float64 {
	digits := v.Sure(w, r.Half).In(v.System).Digits()
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return 100 * float64(w)
	}
	return x
}

// offBy shows a difference of two printed strengths, with their digits.
func offBy(v show.View, off float64, r brine.ReadingResult) string {
	return v.Sure(quantity.Strength(math.Abs(off)/100), r.Half).In(v.System).Digits()
}

// readingNotes say what to know of a reading.
func readingNotes(v show.View, r brine.ReadingResult) []string {
	var notes []string
	switch first := r.Freezing.First(); {
	case first.Found && first.Solid == solution.Ice:
		notes = append(notes, v.Say("Ice forms first, at %v: on this side more salt lowers it.", show.TemperatureOf(first)))
	case first.Found:
		notes = append(notes, v.Say("Salt crystals (%s) form first, at %v: on this side more salt raises it.", first.Solid, show.TemperatureOf(first)))
	}
	if !r.Sample.Instrument.Floats() {
		notes = append(notes, "What is weighed in air weighs a thousandth less than its mass: that is 0.1% of strength, and not taken off.")
	}
	if r.Clamped {
		notes = append(notes, v.Say("The reading lies just beyond what brine at %v can show; it was taken as %v.", r.Sample.Temperature, r.True))
	}
	if r.Solid {
		notes = append(notes, v.Say("Brine this strong is part solid at %v: stir, let the sample clear, and read again.", r.Sample.Temperature))
	}
	return append(notes, v.DensityNotes(r.True, r.Sample.Temperature)...)
}
