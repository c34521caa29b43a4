package cold

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

var freezeCommand = run.Command{
	Screen: true,
	Use:    "freeze [TANK]",
	Short:  "What the cold does to a liquid",
	Long: "freeze tells when ice forms in a liquid, and when salt falls out. It says\n" +
		"which of the two comes first. --at tells what the liquid has become at a\n" +
		"temperature. --curve draws its freezing diagram. --pavement says how much ice\n" +
		"it melts. With no liquid it goes through every tank of the yard. Then --at is\n" +
		"how cold the night gets.",
	Example: "  brineyard freeze --nacl 18% --cacl2 7% --at 0F --volume 4000gal\n" +
		"  brineyard freeze --tank north --at -4F\n" +
		"  brineyard freeze --at 5F",
	New:       func() run.Question { return &freeze{} },
	Rows:      true,
	NoWorking: "No working here: water, a product that is read off its data sheet, or every tank at once.",
}

type freeze struct {
	request brine.FreezeRequest
	in      standsIn
	ascii   bool
	reading bind.Reading
	sample  brine.Sample
	read    *brine.ReadingResult // of the sample, where the liquid was read
}

// Bind binds the request.
func (q *freeze) Bind(b *bind.Set) {
	r := &q.request
	bind.Spoken(b, "north", "tank")
	bindLiquid(b, &r.Liquid, &q.in, &q.reading)
	q.reading.BindIfRead(b, &q.sample, "temperature of the sample, or at which a volume is measured; 60F unless given")
	b.Then(func(*bind.Scope) (err error) {
		q.read, r.StoredAt = nil, q.sample.Temperature
		if !q.reading.Given() {
			return nil
		}
		read, err := brine.Reading(q.sample)
		q.read, r.Liquid, r.StoredAt = &read, balance.SaltBrine(read.True), read.Sample.Temperature
		return err
	})
	var at *bind.Value[quantity.Temperature]
	var volume *bind.Value[quantity.Volume]
	var pavement *bind.Value[quantity.Temperature]
	b.Then(func(*bind.Scope) error {
		switch {
		case q.in.every && pavement.Given():
			return ofOneLiquid(pavement.Said())
		case q.in.every && volume.Given():
			return ofOneLiquid(volume.Said())
		case q.in.every && q.request.Curve:
			return ofOneLiquid("--curve")
		}
		if volume.Given() && !at.Given() {
			return fault.Refuse("%s: says nothing without --at; allowed: both, like --at 0F", volume.Said())
		}
		return nil
	})
	at = bind.Of(b, bind.Temperature, &r.At, "at", "what it has become after standing at this temperature")
	pavement = bind.Of(b, bind.Temperature, &r.Pavement, "pavement", "how much ice it melts on pavement at this temperature")
	volume = bind.Of(b, bind.Volume, &r.Volume, "volume", "what stands in the tank, for --at", q.in.volume)
	bind.Switch(b, &r.Curve, "curve", "the freezing diagram, as a table and a chart")
	bind.ASCII(b, &q.ascii)
}

// ofOneLiquid refuses what is asked of one liquid where none is named.
func ofOneLiquid(said string) error {
	return fault.Refuse("%s: of which liquid? allowed: with --tank, --liquid, or salts like --nacl 23.3%%", said)
}

// Answer works out what the cold does.
func (q *freeze) Answer(s *run.Session) (run.Reply, error) {
	r := q.request
	if q.in.every {
		return q.tonight(s.View)
	}
	f, err := brine.Freeze(r)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{
		Figures: freezeFigures(s.View, r, f),
		Words: func(d *report.Document) {
			d.ASCII = q.ascii
			freezeWords(s.View, d, r, f)
			d.Verdict = q.in.stands(s.View) + d.Verdict
			if q.read != nil {
				d.Doubts = []string{s.View.Say("By the glass: %v at %v is %v true (%s).",
					s.View.Marked(q.read.Sample.Instrument, q.read.Sample.Reading), q.read.Temperature, s.View.True(*q.read), s.View.TrueRange(*q.read))}
			}
			if q.in.given() {
				d.Notes = append(show.Said(s.View.Doubt(q.in.Name, q.in.Said, q.in.clock())), d.Notes...)
			}
		},
		Working: func() []report.Step { return derive.Freeze(s.View, r, f) },
	}, nil
}

func freezeFigures(v show.View, r brine.FreezeRequest, f brine.FreezeResult) []report.Figure {
	figures := v.Cold(f.Cold)
	if f.Stands {
		figures = append(figures, standFigures(v, r, f.Stand)...)
	}
	if f.Melts {
		figures = append(figures, meltFigures(v, r, f.Melt)...)
	}
	return figures
}

func freezeWords(v show.View, d *report.Document, r brine.FreezeRequest, f brine.FreezeResult) {
	d.Title, d.Verdict, d.Notes = "What the cold does", freezeVerdict(v, r, f), freezeNotes(v, r, f)
	if f.Stands {
		d.Cautions = standCautions(f.Stand)
	}
	if len(f.Curve) > 0 {
		d.Tables = []report.Table{curveTable(v, f.Curve)}
		d.Charts = append(d.Charts, v.FreezingChart(f.Curve))
	}
}

// freezeVerdict answers the narrowest question asked.
func freezeVerdict(v show.View, r brine.FreezeRequest, f brine.FreezeResult) string {
	switch {
	case f.Stands:
		return standVerdict(v, r, f.Stand, f.Cold.First())
	case f.Melts:
		return meltVerdict(v, r, f.Melt)
	}
	return v.ColdVerdict(f.Cold)
}

func freezeNotes(v show.View, r brine.FreezeRequest, f brine.FreezeResult) []string {
	var notes []string
	if !f.Stands || f.Stand.Salt > 0 {
		notes = v.ColdNotes(f.Cold)
	}
	notes = append(notes, show.CalciumNotes(r.Liquid)...)
	for _, limit := range f.OutOfRange {
		notes = append(notes, v.RangeNote(limit))
	}
	if f.Stands {
		notes = append(notes, standNotes(v, f.Stand)...)
	}
	if f.Melts {
		notes = append(notes, "Melting is carried to the end, with no heat but that of the pavement; on a road it is slower and part of it runs off.")
	}
	return notes
}
