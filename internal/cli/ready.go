package cli

import (
	"math"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type readyOptions struct {
	temp, cal     *input[quantity.Temperature]
	to, low, high *input[quantity.Strength]
	scale         choice
}

func newReady(env *Env, g *globals) *cobra.Command {
	return asking(env, g, &cobra.Command{
		Use:   "ready TIME=READING ...",
		Short: "When a mixing tank will be ready, from readings so far",
		Long: "ready takes readings while a tank is pumped over its bed of salt, and tells\n" +
			"when it reaches target, when it gets too strong, and when to look again. Times\n" +
			"are of day (10:05) or in minutes (20). A reading can carry its own temperature\n" +
			"behind @.",
		Example: "  brineyard ready 10:05=12% 10:20=18.5% 10:30=20.9% --temp 45F\n" +
			"  brineyard ready 0=8%@48F 15=15.5%@46F 30=19.6%@45F",
	}, newReadyOptions())
}

func newReadyOptions() *readyOptions {
	return &readyOptions{scale: choice{words: scaleNames, value: scaleNames[0]}}
}

// flags defines the flags.
func (o *readyOptions) flags(f *pflag.FlagSet) {
	o.temp = temperatureFlag(f, "temp", "temperature of the samples that carry none")
	f.Var(&o.scale, "by", "instrument: hydrometer, sg, salometer, baume or weigh")
	o.cal = temperatureFlag(f, "cal", "temperature for which the hydrometer is marked; 60F unless given")
	o.to = strengthFlag(f, "to", "target")
	o.low = strengthFlag(f, "low", "lowest true strength that may be pumped")
	o.high = strengthFlag(f, "high", "highest true strength that may be pumped")
}

// ask answers them.
func (o *readyOptions) ask(s *setting, args []string) (reply, error) {
	r, clock, err := o.request(s, args)
	if err != nil {
		return reply{}, err
	}
	out, err := ready.Estimate(r)
	if err != nil {
		return reply{}, s.inputError(err)
	}
	return shown(readyDocument(s, r, out, clock), nil)
}

func (o *readyOptions) request(s *setting, args []string) (ready.Request, bool, error) {
	r := ready.Request{Band: s.band(o.to, o.low, o.high)}
	s.origin[fault.FieldReadings] = said("the readings")
	s.origin[fault.FieldReading] = said("the readings")
	if o.temp.given {
		s.given(fault.FieldTemperature, "temp", o.temp.text, o.temp.bare, o.temp.value)
	} else {
		s.origin[fault.FieldTemperature] = said("the readings")
	}
	scale := gauge.Scale(0)
	for i, name := range scaleNames {
		if name == o.scale.value {
			scale = gauge.Scale(i)
		}
	}
	reading := readingFlags{cal: o.cal}
	instrument, err := reading.instrument(s, scale)
	if err != nil {
		return r, false, err
	}
	clock := false
	for i, text := range args {
		sample, isClock, err := o.timed(text, instrument)
		if err != nil {
			return r, false, err
		}
		if i > 0 && isClock != clock {
			return r, false, usagef("%s: times of day and minutes together; allowed: one kind", words.Quoted(text))
		}
		clock = isClock
		// A time of day that is long before the one before it is of the next day.
		if i > 0 && clock {
			for before := r.Samples[i-1].At; before-sample.At > dayMinutes/2*quantity.Minute; {
				sample.At += dayMinutes * quantity.Minute
			}
		}
		r.Samples = append(r.Samples, sample)
	}
	return r, clock, nil
}

// timed reads TIME=READING or TIME=READING@TEMPERATURE.
func (o *readyOptions) timed(text string, i gauge.Instrument) (ready.TimedSample, bool, error) {
	out := ready.TimedSample{Sample: brine.Sample{Instrument: i, Temperature: o.temp.value}}
	when, what, ok := strings.Cut(text, "=")
	if !ok {
		return out, false, usagef("%s: not a reading with its time; allowed: like 10:05=12%% or 20=12%%", words.Quoted(text))
	}
	at, clock, err := moment(when)
	if err != nil {
		return out, false, usagef("%s: time %s: %v", words.Quoted(text), words.Quoted(when), err)
	}
	out.At = at
	shown, temp, own := strings.Cut(what, "@")
	if out.Sample.Reading, err = parseOnScale(i.Scale, shown); err != nil {
		return out, false, usagef("%s: reading %s: %v", words.Quoted(text), words.Quoted(shown), err)
	}
	switch {
	case own:
		if out.Sample.Temperature, _, err = quantity.ParseTemperature(temp); err != nil {
			return out, false, usagef("%s: temperature %s: %v", words.Quoted(text), words.Quoted(temp), err)
		}
	case !o.temp.given:
		return out, false, usagef("%s: no temperature; allowed: --temp for all, or one behind the reading, like 10:05=12%%@45F", words.Quoted(text))
	}
	return out, clock, nil
}

// parseOnScale reads a number on an instrument's scale.
func parseOnScale(scale gauge.Scale, text string) (float64, error) {
	switch scale {
	case gauge.SpecificGravity:
		q, _, err := quantity.ParseSpecificGravity(text)
		return float64(q), err
	case gauge.Salometer:
		q, _, err := quantity.ParseSalometer(text)
		return float64(q), err
	case gauge.Baume:
		q, _, err := quantity.ParseBaume(text)
		return float64(q), err
	case gauge.Weighed:
		q, _, err := quantity.ParseDensity(text)
		return float64(q), err
	default:
		q, _, err := quantity.ParseStrength(text)
		return float64(q), err
	}
}

func readyDocument(s *setting, r ready.Request, out ready.Result, clock bool) *report.Document {
	d := &report.Document{
		Command:  "ready",
		Title:    "When it will be ready",
		Verdict:  readyVerdict(s, r, out, clock),
		Tables:   []report.Table{readingTable(s, r, out, clock)},
		Working:  readyWorking(s, r, out),
		Notes:    readyNotes(s, out),
		Cautions: []string{cautionPump, cautionEntry, cautionLocal},
		Next:     nextAfterReady,
	}
	d.Figures = []report.Figure{
		s.timeFigure("target_time", s.show("Reaches %v", r.Band.Target), out.Target, clock),
		s.timeFigure("too_strong_time", s.show("Above %v", r.Band.High), out.TooStrong, clock),
		{Key: "look_time", Label: "Look again", Value: timeValue(out.Look, clock)},
		s.figure("strength_now", "Strength at the last reading, fitted", out.Now),
		s.figure("saturation", "Saturation", out.Saturation),
		quietUnless(out.Rate.Value > 0, report.Figure{Key: "rate", Label: "Rate of approach", Value: rateValue(out.Rate.Value,
			s.show("%.3g a minute (%.3g to %.3g)", 60*out.Rate.Value, 60*out.Rate.Low, 60*out.Rate.High))}),
		quiet(report.Figure{Key: "rate_low", Label: "Rate, low end", Value: rateValue(out.Rate.Low, "")}),
		quiet(report.Figure{Key: "rate_high", Label: "Rate, high end", Value: rateValue(out.Rate.High, "")}),
		quiet(report.Figure{Key: "fits", Label: "The readings follow the law", Value: report.Word(map[bool]string{true: "yes", false: "no"}[out.Fault == ready.NoFault])}),
		quiet(report.Figure{Key: "fault", Label: "Why not", Value: report.Word(faultWords[out.Fault])}),
	}
	d.Figures = append(d.Figures, s.ends(out)...)
	plateau := report.Figure{Key: "plateau", Label: "Levels off at", Value: report.Nothing("%", "saturation"), Quiet: true}
	if out.Fault == ready.Starved {
		plateau = s.figure("plateau", "Levels off at", out.Plateau)
	}
	d.Figures = append(d.Figures, plateau)
	return d
}

// ends are the ends of the error bands, for programs.
func (s *setting) ends(out ready.Result) []report.Figure {
	var figures []report.Figure
	for _, e := range []struct {
		key string
		at  float64
	}{
		{"target_time_low", out.Target.Low}, {"target_time_high", out.Target.High},
		{"too_strong_time_low", out.TooStrong.Low}, {"too_strong_time_high", out.TooStrong.High},
	} {
		v := report.Nothing("min", "never")
		if !math.IsInf(e.at, 0) && !math.IsNaN(e.at) {
			v = report.Number(e.at/60, "min", "")
		}
		figures = append(figures, quiet(report.Figure{Key: e.key, Label: "End of the band", Value: v}))
	}
	return figures
}

// faultWords name the faults for programs.
var faultWords = map[ready.Fault]string{
	ready.Starved: "starved", ready.Falling: "falling", ready.OneWrong: "one wrong", ready.Scattered: "scattered", ready.Stalled: "stalled",
}

// rateValue is a rate in 1/min.
func rateValue(perSecond float64, text string) report.Value {
	return report.Number(60*perSecond, "1/min", text)
}

func timeValue(at quantity.Duration, clock bool) report.Value {
	return report.Number(float64(at/quantity.Minute), "min", clockText(at, clock))
}

// timeFigure shows a time with its error band.
func (s *setting) timeFigure(key, label string, span ready.Span, clock bool) report.Figure {
	if math.IsInf(span.Value, 0) || math.IsNaN(span.Value) {
		return report.Figure{Key: key, Label: label, Value: report.Nothing("min", "never")}
	}
	at := quantity.Duration(span.Value)
	v := timeValue(at, clock)
	v.Text += " (" + clockText(max(0, quantity.Duration(span.Low)), clock) + " to " + clockText(quantity.Duration(span.High), clock) + ")"
	return report.Figure{Key: key, Label: label, Value: v}
}

// readyVerdict is one sentence: when, or why not.
func readyVerdict(s *setting, r ready.Request, out ready.Result, clock bool) string {
	look := clockText(out.Look, clock)
	never := math.IsInf(out.Target.Value, 0)
	last := r.Samples[len(r.Samples)-1].At
	newest := out.Strengths[len(out.Strengths)-1]
	switch {
	case newest > r.Band.High:
		return s.show("The last reading is %v true, above %v already: stop pumping it over the bed, and check the tank.", newest, r.Band.High)
	case out.Fault == ready.Stalled && newest >= r.Band.Low:
		return s.show("It stands at %v and does not gain: check the tank.", newest)
	case out.Fault == ready.Stalled:
		return s.show("It does not gain: look for a bed without salt, debris over it, or a pump that does not move the brine.")
	case out.Fault == ready.Scattered:
		return s.show("The readings scatter more than a hydrometer does, so no time is given: take them again from one place, and let the glass come to rest.")
	case out.Fault == ready.Falling:
		return s.show("It is getting weaker, not stronger: stop and look for the fill valve left open while it is pumped round.")
	case out.Fault == ready.Starved && never:
		return s.show("It levels off at %v and will not reach %v: too little salt on the bed, or the bed is covered with debris.", out.Plateau, r.Band.Target)
	case never:
		return s.show("These readings never reach %v.", r.Band.Target)
	case out.TooStrong.Value <= float64(last):
		return s.show("It passed %v at about %s: stop pumping it over the bed, and check the tank.", r.Band.High, clockText(quantity.Duration(out.TooStrong.Value), clock))
	case out.Target.Value <= float64(last):
		text := s.show("It reached %v at about %s: check the tank now", r.Band.Target, clockText(quantity.Duration(out.Target.Value), clock))
		if !math.IsInf(out.TooStrong.Value, 0) {
			text += "; it may be too strong from " + clockText(max(last, quantity.Duration(out.TooStrong.Low)), clock)
		}
		return text + "."
	}
	text := s.show("Ready at about %s; look at %s.", clockText(quantity.Duration(out.Target.Value), clock), look)
	if !math.IsInf(out.TooStrong.Value, 0) {
		text = s.show("Ready at about %s; look at %s, and have it off the bed before %s.", clockText(quantity.Duration(out.Target.Value), clock),
			look, clockText(max(last, quantity.Duration(out.TooStrong.Low)), clock))
	}
	if out.Fault == ready.NoFault {
		return text
	}
	return s.show("The readings do not fit (%s). %s", faultText[out.Fault], text)
}

// faultText says in a few words what is wrong with the readings.
var faultText = map[ready.Fault]string{
	ready.Starved:  "it levels off below saturation",
	ready.OneWrong: "one reading is far off",
}

// readyNotes give the trade's reasons. Common practice, no source.
func readyNotes(s *setting, out ready.Result) []string {
	notes := []string{s.show("A bed of salt drives a tank toward saturation (%v), fast at first; the ends in brackets hold 19 times in 20.", out.Saturation)}
	switch out.Fault {
	case ready.Starved:
		notes = append(notes, s.show("It seems to level off at %v: look for too little salt on the bed, debris or sludge over it, or water still running in.", out.Plateau))
	case ready.Falling:
		notes = append(notes, "Or a reading was taken of brine that was not yet mixed, or the bed is used up.")
	case ready.OneWrong:
		notes = append(notes, s.show("Reading %v lies far off the others and was left aside: take it again.", quantity.Count(out.Odd+1)))
	case ready.Scattered:
		notes = append(notes, "Take samples from the same place, after the pump has run a while, and let the hydrometer come to rest.")
	}
	if out.Fault == ready.NoFault && len(out.Strengths) < 5 {
		notes = append(notes, "With fewer than five readings a starved bed cannot be told from a good one; with fewer than four the ends in brackets rest on what a hydrometer can be read to (0.1, common practice, no source).")
	}
	return notes
}

// readingTable lists the readings with what they mean.
func readingTable(s *setting, r ready.Request, out ready.Result, clock bool) report.Table {
	t := report.Table{Key: "readings", Title: "Readings", Columns: []report.Column{
		{Key: "time", Label: "Time"}, {Key: "reading", Label: "Shown"}, {Key: "temp", Label: "At"}, {Key: "true_strength", Label: "True"},
	}}
	for i, sample := range r.Samples {
		t.Rows = append(t.Rows, []report.Value{
			timeValue(sample.At, clock), s.value(sample.Sample.Shown()), s.value(sample.Sample.Temperature), s.value(out.Strengths[i]),
		})
	}
	return t
}

// readyWorking reckons the time to target from the fitted law.
func readyWorking(s *setting, r ready.Request, out ready.Result) []report.Step {
	if !s.globals.Working {
		return nil
	}
	if math.IsInf(out.Target.Value, 0) {
		return nil
	}
	p := &pocket{system: s.system}
	level := out.Saturation
	if out.Fault == ready.Starved {
		level = out.Plateau
	}
	full, start, target := p.percent(level), p.percent(out.Start), p.percent(r.Band.Target)
	rate := number(60*out.Rate.Value, "")
	p.read("Law of mixing", "strength = level - (level - start) x exp(-rate x minutes); start and rate by least squares through the readings", rate)
	from := p.step("How far it was below the level at the first reading", "level - start", "{} - {}", []term{full, start}, full.value-start.value, "%")
	to := p.step("How far it is below it on target", "level - target", "{} - {}", []term{full, target}, full.value-target.value, "%")
	ratio := p.step("How many times closer", "first / second", "{} / {}", []term{from, to}, from.value/to.value, "")
	log := p.read("Natural logarithm of that", "ln", number(math.Log(ratio.value), ""))
	p.step("Minutes from the first reading to target", "logarithm / rate", "{} / {}", []term{log, rate}, log.value/rate.value, "min")
	return p.steps
}
