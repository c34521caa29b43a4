package tank

import (
	"strings"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// samples takes the timed readings that were typed, else those that the journal has of the tank.
func (q *readyAt) samples(b *bind.Set, s *bind.Scope) error {
	q.request.Samples, q.dial = nil, dial{}
	switch {
	case q.flow.given() && len(s.Args) > 0:
		return q.flow.samples(q, b, s)
	case q.flow.given():
		return nil
	case len(s.Args) == 0 && q.named.Given():
		return q.recorded(s)
	case len(s.Args) == 0:
		return bind.LackOfWords(fault.Refuse("no readings; allowed: two or more, like 10:05=12%% 10:20=18.5%%, or --tank with those in the journal"),
			"Which readings, each with its time? e.g. 10:05=12% 10:20=18.5% 10:40=21%", "")
	}
	var said []saidTime
	for _, text := range s.Args {
		when, what, ok := strings.Cut(text, "=")
		if !ok {
			return fault.Refuse("%s: not a reading with its time; allowed: like 10:05=12%% or 20=12%%", words.Quoted(text))
		}
		at, err := readTime(when)
		if err != nil {
			return fault.Refuse("%s: time %s: %v", words.Quoted(text), words.Quoted(when), err)
		}
		at.text = text
		sample, err := q.sample(b, s, text, what)
		if err != nil {
			return err
		}
		said = append(said, at)
		q.request.Samples = append(q.request.Samples, ready.TimedSample{Sample: sample})
	}
	at, d, err := timesOf(said, s.Now())
	for i := range at {
		q.request.Samples[i].At = at[i]
	}
	q.dial = d
	return err
}

// sample reads READING or READING@TEMPERATURE, the end of a word.
func (q *readyAt) sample(b *bind.Set, s *bind.Scope, text, what string) (brine.Sample, error) {
	out := brine.Sample{Instrument: q.instrument, Thermometer: q.degrees, Temperature: q.temp}
	shown, temp, own := strings.Cut(what, "@")
	var err error
	if out.Reading, _, err = bind.Shown(q.instrument.Scale, s.System, shown); err != nil {
		return out, fault.Refuse("%s: reading %s: %v", words.Quoted(text), words.Quoted(shown), err)
	}
	if own {
		if out.Temperature, _, err = quantity.Meant(quantity.ParseTemperature, s.System, temp); err != nil {
			return out, fault.Refuse("%s: temperature %s: %v", words.Quoted(text), words.Quoted(temp), err)
		}
	}
	if !own && !q.allAt.Given() {
		return out, b.LackOfTemperature(s, fault.Refuse("%s: no temperature; allowed: --temp for all, or one behind the reading, like 10:05=12%%@45F", words.Quoted(text)))
	}
	out.Temperature = q.degrees.True(out.Temperature)
	return out, nil
}

// recorded takes the readings since something was last put into the tank or taken out.
func (q *readyAt) recorded(s *bind.Scope) error {
	run := q.tank.Run
	if len(run.Readings) < 2 {
		return fault.Refuse("--tank %s: the journal has %s of it since something was last put in or taken out; allowed: two or more, recorded with check --record or journal add reading, or typed like 10:05=12%%",
			words.Quoted(q.tank.Name), map[bool]string{true: "no reading", false: "one reading"}[len(run.Readings) == 0])
	}
	first := run.Readings[0].Time.In(s.Now().Location())
	q.dial = dial{clock: true, base: time.Date(first.Year(), first.Month(), first.Day(), 0, 0, 0, 0, first.Location())}
	q.request.Samples = samplesOf(run, q.dial.base)
	return nil
}

// samplesOf are a mixing's readings, timed from a moment on.
func samplesOf(run yard.Run, from time.Time) []ready.TimedSample {
	var samples []ready.TimedSample
	for _, r := range run.Readings {
		samples = append(samples, ready.TimedSample{
			At:     quantity.Duration(r.Time.Sub(from).Seconds()),
			Sample: brine.Sample{Instrument: r.Instrument, Thermometer: r.Thermometer, Reading: r.Shown, Temperature: r.Temperature},
		})
	}
	return samples
}

// before are the tank's mixings of the past.
func (q *readyAt) before() []ready.Request {
	var all []ready.Request
	for _, run := range q.tank.Runs {
		all = append(all, ready.Request{Samples: samplesOf(run, run.Readings[0].Time), Band: q.request.Band, End: run.End})
	}
	return all
}
