package tank

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

var correctCommand = run.Command{
	Screen: true,
	Use:    "correct [TANK READING TEMPERATURE]",
	Short:  "What brings a tank to target",
	Long: "correct tells how much water, salt or stored brine brings a tank to its\n" +
		"target. It says whether that fits, and what the instrument then shows. It\n" +
		"balances weights of salt and water, not volumes. With a yard file three words\n" +
		"do, like correct mixer 25.6 44.",
	Example: "  brineyard correct --volume 500gal --strength 26% --to 23.3%\n" +
		"  brineyard correct --volume 500gal --hydrometer 21% --temp 45F --stock 26%",
	New:  func() run.Question { return &correct{} },
	Rows: true,
}

type correct struct {
	request brine.CorrectRequest
	tank    bind.Tank
	reading bind.Reading
	sample  brine.Sample
	read    *brine.ReadingResult // nil where the strength was typed
	record  run.Record
}

// Bind binds the request: the strength is typed, or read.
func (q *correct) Bind(b *bind.Set) {
	r := &q.request
	bind.Spoken(b, "mixer 23.5 38", "tank", bind.AReading, "temp")
	q.record.Bind(b, q.tank.Known, run.NeedsTank)
	q.tank.Bind(b, &r.Volume, &r.Capacity, "brine in the tank")
	bind.Additive(b, &r.With, &r.Stock, &r.RockSalt)
	bind.Target(b, &r.Target)
	q.reading.BindStrength(b, &r.Strength, &q.sample, q.tank.Strength())
	b.Then(func(*bind.Scope) (err error) {
		r.Temperature, r.Instrument, q.read = q.sample.Temperature, q.sample.Instrument, nil
		r.Sure, r.VolumeHalf = sure.Budget{}, q.tank.Stick.Half()
		if !q.reading.Given() {
			r.Sure = q.tank.Sureness(r.Strength)
			return nil
		}
		read, err := brine.Reading(q.sample)
		q.read, r.Strength, r.Temperature, r.Sure = &read, read.True, read.Temperature, read.Sure
		return err
	})
}

// Answer corrects the tank.
func (q *correct) Answer(s *run.Session) (run.Reply, error) {
	var from stored
	if r := &q.request; r.With == brine.AddStock && r.Stock == 0 {
		var err error
		if from, err = stockFor(s, q.tank.Name, *r); err != nil {
			return run.Reply{}, err
		}
		r.Stock = from.strength
	}
	r, v := q.request, s.View
	c, err := q.correction()
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: correctFigures(v, r, c, q.read),
		Words: func(d *report.Document) {
			d.Brief = q.brief(v, r, c)
			d.Title, d.Verdict, d.Cautions = "Correction", q.verdict(v, r, c), show.CorrectionCautions(c)
			d.Doubts, d.Notes = show.Said(q.doubt(v)), v.CorrectionNotes(r, c)
			d.Doubts = append(d.Doubts, show.Said(saltInStorage(q.tank.Is, r.With, c))...)
			if move := moveFromStorage(s.Yard, q.tank.Is, r.With, c); move != "" {
				d.Verdict = v.Say("Weak by %v of salt, which does not dissolve on the floor of a storage tank: %s.", c.Salt, move)
				d.Brief = d.Verdict
			}
			if from.tank != "" {
				d.Doubts = append(d.Doubts, from.note(v, c))
			}
			d.Next = "check, once it is mixed and the temperature has settled."
			if c.Additive != brine.AnyAdditive && c.Share.Low == 0 && c.DrawOffFirst == 0 {
				d.Notes = append(d.Notes, "The reading cannot tell this tank from one on target: adding nothing is as good.")
			}
			if q.read != nil {
				d.Notes = append(d.Notes, v.DensityNotes(r.Strength, r.Temperature)...)
			}
		},
		Working: func() []report.Step { return q.working(v, c) },
		Record:  &q.record, Entries: run.CorrectionEntries(q.tank.Name, r, c),
	}, nil
}

// doubt says why what the journal has of the tank may be wrong.
func (q *correct) doubt(v show.View) string {
	if q.read != nil {
		return q.tank.DoubtBy(v, q.read.True)
	}
	return q.tank.Doubt(v)
}

// correction takes what a reading made known of the brine, so that it is not worked out again.
func (q *correct) correction() (brine.Correction, error) {
	if q.read != nil {
		return brine.CorrectKnown(q.request, q.read.Known)
	}
	return brine.Correct(q.request)
}

func (q *correct) working(v show.View, c brine.Correction) (steps []report.Step) {
	if q.read != nil {
		steps = derive.Reading(v, *q.read)
	}
	steps = append(steps, derive.Correct(v, q.request, c)...)
	steps = append(steps, derive.Amount(v, c)...)
	return append(steps, derive.Expected(v, q.request.Instrument, c.Strength, q.request.Temperature)...)
}

func correctFigures(v show.View, r brine.CorrectRequest, c brine.Correction, read *brine.ReadingResult) []report.Figure {
	figures := v.CorrectionFigures(r, c)
	if read == nil {
		return figures
	}
	return append(v.StrengthFigures(*read), figures...)
}

// brief is the verdict in the words of a text message.
func (q *correct) brief(v show.View, r brine.CorrectRequest, c brine.Correction) string {
	if c.Additive == brine.AnyAdditive {
		return "Add nothing: it is on target."
	}
	steps := v.CorrectionSteps(c)
	return v.Say("%s%s: it becomes %v at %v, and shows %v at %v.", strings.ToUpper(steps[:1]), steps[1:], c.Final, c.Strength, v.Marked(r.Instrument, c.Reading), r.Temperature)
}

func (q *correct) verdict(v show.View, r brine.CorrectRequest, c brine.Correction) string {
	volume, strength := q.tank.Source(v), q.tank.StrengthSource(v, q.reading.Named())
	if volume == strength {
		volume = ""
	}
	has := v.Say("%v%s at %v%s", r.Volume, volume, v.Sure(r.Strength, quantity.Strength(r.Sure.Half())), strength)
	if c.Additive == brine.AnyAdditive {
		return v.Say("Add nothing: %s is on target.", has)
	}
	steps := v.CorrectionSteps(c)
	if q.tank.Is.Bed > 0 {
		decision := yard.TooWeak
		if r.Strength > r.Target {
			decision = yard.TooStrong
		}
		steps = overBed(decision) + steps
	}
	return v.Say("%s: %s becomes %v at %v, and %s shows %v at %v.",
		strings.ToUpper(steps[:1])+steps[1:], has, c.Final, c.Strength,
		r.Instrument.Scale.Words(), v.Marked(r.Instrument, c.Reading), r.Temperature)
}
