package tank

import (
	"fmt"
	"math"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var readyCommand = run.Command{
	Screen: true,
	Use:    "ready TIME=READING ...",
	Short:  "When a mixing tank will be ready, from readings so far",
	Long: "ready takes readings while a tank is pumped over its bed of salt. It tells\n" +
		"when the tank reaches target. It tells when it gets too strong, and when to\n" +
		"look again.",
	Example: "  brineyard ready 10:05=12% 10:20=18.5% 10:30=20.9% --temp 45F\n" +
		"  brineyard ready 0=8%@48F 15=15.5%@46F 30=19.6%@45F",
	New:       func() run.Question { return &readyAt{} },
	Rows:      true,
	NoWorking: "No working here: the target is not reached, so there is no time to it.",
}

// readyAt asks when a tank is ready.
type readyAt struct {
	request    ready.Request
	instrument gauge.Instrument
	degrees    gauge.Thermometer
	temp       quantity.Temperature
	allAt      *bind.Value[quantity.Temperature] // types temp
	dial       dial
	name       string
	named      *bind.Text
	tank       yard.Tank // as it stands; zero unless named
	charge     ready.Charge
	// typedCharge tells that the charge was typed and is not the journal's batch.
	typedCharge bool
	volume      quantity.Volume // of water or brine when it was last known; 0 for unknown
	flow        through
}

// Bind binds the request.
func (q *readyAt) Bind(b *bind.Set) {
	var options []bind.Option[gauge.Scale]
	for _, scale := range gauge.Scales() {
		options = append(options, bind.Option[gauge.Scale]{Word: scale.Name(), Means: scale})
	}
	var scale gauge.Scale
	bind.Band(b, &q.request.Band)
	b.Says(fault.FieldReadings, "the readings")
	b.Says(fault.FieldReading, "the readings")
	q.allAt = bind.Of(b, bind.Temperature, &q.temp, "temp", "temperature of the samples that carry none", bind.InWords[quantity.Temperature]("the readings"))
	bind.OneOf(b, &scale, "by", "instrument: hydrometer, sg, salometer, baume or weigh", options[0].Word, options...)
	bind.InstrumentOf(b, &q.instrument, &q.degrees, func() gauge.Scale { return scale })
	q.named = bind.Name(b, &q.name, "tank", "`name` of a tank: its readings in the journal, and what it did before", bind.TankNames)
	b.Then(func(s *bind.Scope) (err error) {
		if q.tank = (yard.Tank{}); q.named.Given() {
			q.tank, err = s.Tank("tank", q.name)
		}
		return err
	})
	q.flow.bind(b)
	q.bindCharge(b)
	b.Then(func(s *bind.Scope) error { return q.samples(b, s) })
}

// Answer estimates when.
func (q *readyAt) Answer(s *run.Session) (run.Reply, error) {
	if q.flow.given() {
		return q.runsThrough(s)
	}
	v := s.View
	if err := q.learn(); err != nil {
		return run.Reply{}, err
	}
	r := q.request
	out, err := ready.Estimate(r)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: append(q.figures(v, out), q.chargeFigures(v, out)...),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes = "When it will be ready", q.verdict(v, out), append(q.overBrim(v, out), q.notes(v, out)...)
			d.Tables = []report.Table{q.readings(v, out)}
			d.Cautions = []string{show.CautionPump, show.CautionEntry, show.CautionLocal}
			d.Next = "check, when it is time to look again."
		},
		Working: func() []report.Step { return derive.Ready(v, r, out) },
	}, nil
}

// learn takes what the tank did before as known.
func (q *readyAt) learn() error {
	q.request.Past = ready.Past{}
	if !q.named.Given() {
		return nil
	}
	last := q.request.Samples[len(q.request.Samples)-1].Sample
	charge, err := q.request.MeasuredCharge(last.Temperature)
	if err == nil {
		q.request.Past = ready.Learn(q.before(), charge)
	}
	return err
}

func (q *readyAt) figures(v show.View, out ready.Result) []report.Figure {
	r := q.request
	figures := []report.Figure{
		q.timeFigure("target_time", v.Say("Reaches %v", r.Band.Target), out.Target, out.Reaches, otherwise(out)),
		q.timeFigure("too_strong_time", v.Say("Above %v", r.Band.High), out.TooStrong, out.Passes, otherwise(out)),
		{Key: "look_time", Label: "Look again", Value: q.dial.value(out.Look)},
		v.Figure("strength_now", "Strength at the last reading, fitted", v.Sure(out.Now, out.Newest.Half)),
		show.Quiet(v.Figure("true_strength", "True strength of the last reading", out.Newest.True)),
		show.Quiet(v.Figure("true_strength_low", "True strength of the last reading, low end", out.Newest.Range.Low)),
		show.Quiet(v.Figure("true_strength_high", "True strength of the last reading, high end", out.Newest.Range.High)),
		detail(v.Figure("saturation", "Saturation", out.Saturation)),
		show.QuietUnless(out.Rate.Value > 0, report.Figure{Key: "rate", Label: "Rate of approach", Detail: true, Value: rateValue(out.Rate.Value,
			v.Say("%.3g a minute (%.3g to %.3g)", 60*out.Rate.Value, 60*out.Rate.Low, 60*out.Rate.High))}),
		show.Quiet(report.Figure{Key: "rate_low", Label: "Rate, low end", Value: rateValue(out.Rate.Low, "")}),
		show.Quiet(report.Figure{Key: "rate_high", Label: "Rate, high end", Value: rateValue(out.Rate.High, "")}),
		show.Quiet(v.Figure("never_chance", "Chance that it never gets there", quantity.Fraction(out.Never))),
		show.Quiet(report.Figure{Key: "fits", Label: "The readings follow the law", Value: report.Word(map[bool]string{true: "yes", false: "no"}[out.Fault == ready.NoFault])}),
		show.Quiet(report.Figure{Key: "fault", Label: "Why not", Value: report.Word(faultWords[out.Fault])}),
	}
	figures = append(figures, ends(out)...)
	plateau := report.Figure{Key: "plateau", Label: "Levels off at", Value: report.Nothing("%", "saturation"), Quiet: true}
	if out.Fault == ready.Starved {
		plateau = v.Figure("plateau", "Levels off at", out.Plateau)
	}
	return append(figures, plateau)
}

// ends are the ends of the error bands, for programs.
func ends(out ready.Result) []report.Figure {
	var figures []report.Figure
	for _, e := range []struct {
		key string
		at  float64
		ok  bool
	}{
		{"target_time_low", out.Target.Low, out.Reaches}, {"target_time_high", out.Target.High, out.Reaches},
		{"too_strong_time_low", out.TooStrong.Low, out.Passes}, {"too_strong_time_high", out.TooStrong.High, out.Passes},
	} {
		value := report.Nothing("min", "never")
		if e.ok && !math.IsInf(e.at, 1) {
			value = report.Number(e.at/60, "min", "")
		}
		figures = append(figures, show.Quiet(report.Figure{Key: e.key, Label: "End of the band", Value: value}))
	}
	return figures
}

// rateValue is a rate in 1/min.
func rateValue(perSecond float64, text string) report.Value {
	return report.Number(60*perSecond, "1/min", text)
}

// otherwise is said in the place of a time.
func otherwise(out ready.Result) string {
	switch out.Finding {
	case ready.TooEarly, ready.MayNever, ready.TooScattered:
		return "not known"
	}
	return "never"
}

// timeFigure shows a time with its error band.
func (q *readyAt) timeFigure(key, label string, span ready.Span, ok bool, otherwise string) report.Figure {
	if !ok {
		return report.Figure{Key: key, Label: label, Value: report.Nothing("min", otherwise)}
	}
	at := quantity.Duration(span.Value)
	value := q.dial.value(at)
	late := "to " + q.dial.text(quantity.Duration(span.High))
	if math.IsInf(span.High, 1) {
		late = "or later"
	}
	value.Text += " (" + q.dial.text(max(0, quantity.Duration(span.Low))) + " " + late + ")"
	return report.Figure{Key: key, Label: label, Value: value}
}

// readyVerdict is one sentence: when, or why not.
func (q *readyAt) verdict(v show.View, out ready.Result) string {
	r, newest := q.request, v.True(out.Newest)
	at := func(seconds float64) string { return q.dial.text(quantity.Duration(seconds)) }
	switch out.Finding {
	case ready.ReadAbove:
		return v.Say("The last reading is %v true (%s), above %v already: stop pumping it over the bed, and check the tank.", newest, v.TrueRange(out.Newest), r.Band.High)
	case ready.StandsInBand:
		return v.Say("It stands at %v (%s) and does not gain: check the tank.", newest, v.TrueRange(out.Newest))
	case ready.StandsOnEdge:
		return v.Say("It stands at %v (%s), on the edge of %v, and does not gain: check the tank with a finer reading.", newest, v.TrueRange(out.Newest), r.Band.Low)
	case ready.NoGain:
		return "It does not gain: look for a bed without salt, debris over it, or a pump that does not move the brine."
	case ready.TooScattered:
		return "The readings scatter more than a hydrometer does, so no time is given: take them again from one place, and let the glass come to rest."
	case ready.GetsWeaker:
		return "It is getting weaker, not stronger: stop and look for the fill valve left open while it is pumped round."
	case ready.LevelsOff:
		return v.Say("It levels off at %v and will not reach %v: too little salt on the bed, or the bed is covered with debris.", out.Plateau, r.Band.Target)
	case ready.MayNever:
		return v.Say("It may never get to %v (%s): look for a bed that is bare or covered, brine that bypasses it, or a supply that is too cold; read again at %s.",
			r.Band.Target, chance(out.Never), q.dial.text(out.Look))
	case ready.TooEarly:
		return v.Say("Too early to tell whether it gets to %v: read again at %s.", r.Band.Target, q.dial.text(out.Look))
	case ready.NeverOnTarget:
		return v.Say("These readings never reach %v.", r.Band.Target)
	case ready.EndsBelow:
		if r.Band.Judge(r.End) == yard.MayPump {
			return v.Say("All dissolved at about %s, at %v, which is below %v and may be pumped: check it then.", at(out.Done.Value), r.End, r.Band.Target)
		}
		return v.Say("The charge ends at %v, below %v, all dissolved at about %s: check it then, and correct it.", r.End, r.Band.Target, at(out.Done.Value))
	case ready.AllDissolved:
		return v.Say("Done: by the readings the charge is dissolved, at %v (%s): check the tank.", newest, v.TrueRange(out.Newest))
	case ready.PassedBand:
		return v.Say("It passed %v at about %s: stop pumping it over the bed, and check the tank.", r.Band.High, at(out.TooStrong.Value))
	}
	return q.timeVerdict(v, out)
}

// timeVerdict says when, where a time is given.
func (q *readyAt) timeVerdict(v show.View, out ready.Result) string {
	r, at := q.request, func(seconds float64) string { return q.dial.text(quantity.Duration(seconds)) }
	// It may be too strong no earlier than the last reading.
	latest := at(max(float64(r.Samples[len(r.Samples)-1].At), out.TooStrong.Low))
	if out.Finding == ready.OnTarget {
		text := v.Say("It reached %v at about %s: check the tank now", r.Band.Target, at(out.Target.Value))
		if out.Passes {
			text += "; it may be too strong from " + latest
		}
		return text + "."
	}
	text := v.Say("Ready at about %s; look at %s", at(out.Target.Value), q.dial.text(out.Look))
	switch {
	case out.Charge && !out.Passes:
		text += v.Say("; all dissolved at about %s, at %v", at(out.Done.Value), r.End)
	case out.Passes && out.TooStrong.Low > out.Target.Value:
		text += ", and take it off the bed before " + latest
	case out.Passes:
		text += "; it may be too strong from " + latest
	}
	if out.Fault == ready.NoFault {
		return text + "."
	}
	return v.Say("The readings do not fit (%s). %s.", faultText[out.Fault], text)
}

// chance says in how many tanks of a hundred.
func chance(p float64) string {
	return fmt.Sprintf("%.0f tanks in 100 that read so stop below it", math.Min(99, math.Ceil(100*p)))
}

// readyNotes give the trade's reasons. Common practice, no source.
func (q *readyAt) notes(v show.View, out ready.Result) []string {
	notes := []string{v.Say("A bed of salt drives a tank toward saturation (%v), fast at first. In 19 tanks of 20 the time lies between those in brackets.", out.Saturation)}
	if out.Charge {
		notes[0] = v.Say("A measured charge slows down as its grains shrink, and ends at %v. In 19 tanks of 20 the time lies between those in brackets.", q.request.End)
	}
	if q.charge.Full > 0 {
		notes = append(notes, v.Say("The charge is taken to make a full batch of %s, %v: --water says otherwise.", q.tank.Name, q.charge.Full))
	}
	if past := q.request.Past; past.Tanks > 0 {
		note := fmt.Sprintf("The times are narrowed by %s of %s in the journal", show.Plural(past.Tanks, "mixing", "mixings"), q.tank.Name)
		if past.Stuck > 0 {
			note += fmt.Sprintf(", of which %d stopped short", past.Stuck)
		}
		notes = append(notes, note+".")
	}
	switch out.Fault {
	case ready.Starved:
		notes = append(notes, v.Say("It seems to level off at %v: look for too little salt on the bed, debris or sludge over it, or water still running in.", out.Plateau))
	case ready.Falling:
		notes = append(notes, "Or a reading was taken of brine that was not yet mixed, or the bed is used up.")
	case ready.OneWrong:
		notes = append(notes, v.Say("Reading %v lies far off the others and was left aside: take it again.", quantity.Count(out.Odd+1)))
	case ready.Scattered:
		notes = append(notes, "Take samples from the same place, after the pump has run a while, and let the hydrometer come to rest.")
	}
	if out.Fault == ready.NoFault && len(out.Strengths) < 5 && !out.Charge {
		notes = append(notes, "With fewer than five readings a bed that starves is hard to tell from a good one: read on.")
	}
	return notes
}

// readingTable lists the readings with what they mean.
func (q *readyAt) readings(v show.View, out ready.Result) report.Table {
	t := report.Table{Key: "readings", Title: "Readings", Columns: []report.Column{
		{Key: "time", Label: "Time"}, {Key: "reading", Label: "Shown"}, {Key: "temp", Label: "At"}, {Key: "true_strength", Label: "True"},
	}}
	for i, sample := range q.request.Samples {
		t.Rows = append(t.Rows, []report.Value{
			q.dial.value(sample.At), v.Value(sample.Sample.Shown()), v.Value(sample.Sample.Temperature), v.Value(v.Sure(out.Strengths[i], out.Newest.Half)),
		})
	}
	return t
}

// faultWords name the faults for programs.
var faultWords = map[ready.Fault]string{
	ready.Starved: "starved", ready.Falling: "falling", ready.OneWrong: "one wrong", ready.Scattered: "scattered", ready.Stalled: "stalled",
}

// faultText says in a few words what is wrong with the readings.
var faultText = map[ready.Fault]string{
	ready.Starved:  "it levels off below saturation",
	ready.OneWrong: "one reading is far off",
}
