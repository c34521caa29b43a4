package tank

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

var glassCommand = run.Command{
	Screen: true,
	Use:    "glass",
	Short:  "What a hydrometer or a thermometer shows too much",
	Long: "glass checks a hydrometer in fresh water, or in a brine that you weigh out. It\n" +
		"checks a thermometer in melting ice. It says what the instrument shows too\n" +
		"much, and how sure that is. --write puts both into the yard file. Every\n" +
		"reading takes them off from then on.",
	Example: "  brineyard glass --water 0.2% --temp 58F\n" +
		"  brineyard glass --salt 303g --water-weight 1000g --hydrometer 23.5% --temp 60F",
	Args:      run.NoArguments,
	New:       func() run.Question { return &glass{} },
	NoWorking: "No working here: in melting ice a thermometer shows 0 C (32 F), and the rest is subtraction.",
}

type glass struct {
	bind.GlassTest
	write bool
}

// Bind binds the test.
func (q *glass) Bind(b *bind.Set) {
	q.GlassTest.Bind(b)
	bind.Switch(b, &q.write, "write", "write the offset into the yard file, comments kept")
	b.Then(func(s *bind.Scope) error {
		switch {
		case !q.write:
			return nil
		case s.Yard == nil:
			return fault.Refuse("--write: there is no yard file; allowed: --yard with a file")
		case !q.OfThermometer && q.Glass.Name == "":
			return fault.Refuse("--write: the yard file has no [[glass]] of that scale; allowed: with one that has a name and a scale")
		}
		return nil
	})
}

// Answer compares the instrument with a true one.
func (q *glass) Answer(s *run.Session) (run.Reply, error) {
	r := q.Test
	g, err := brine.CheckGlass(r)
	in := q.unit(r)
	if q.OfThermometer {
		g, err = brine.CheckThermometer(q.Ice, r.Sample.Thermometer)
	}
	if err != nil {
		return run.Reply{}, err
	}
	if q.write {
		if err := q.save(s, g); err != nil {
			return run.Reply{}, err
		}
	}
	division := r.Sample.Instrument.Division
	if q.OfThermometer {
		division = r.Sample.Thermometer.Division
	}
	return run.Reply{
		Figures: q.figures(s.View, g, in, division),
		Words: func(d *report.Document) {
			d.Title, d.Verdict = "Instrument check", q.verdict(s.View, g, in, division)
			d.Notes = q.notes(s.View, g, in)
			d.Next = "reading and check take the offset off, once it is in the yard file (--write)."
			if q.write {
				d.Next = "reading and check take it off from now on."
			}
		},
		Working: func() []report.Step {
			if q.OfThermometer {
				return nil
			}
			return derive.Glass(s.View, r, g)
		},
	}, nil
}

// unit makes a number a quantity of the instrument: a reading, or degrees of difference.
func (q *glass) unit(r brine.GlassTest) func(float64) quantity.Quantity {
	if q.OfThermometer {
		return func(x float64) quantity.Quantity { return quantity.Difference(x) }
	}
	return r.Sample.Instrument.Scale.Quantity
}

func (q *glass) figures(v show.View, g brine.GlassResult, in func(float64) quantity.Quantity, division float64) []report.Figure {
	half := in(g.Sure.Half())
	offset := v.Figure("offset", "Shows too much", v.Fine(in(g.Offset), half))
	offset.Value.Text += " (" + v.FineRange(in(g.Low()), in(g.High()), half) + ")"
	var figures []report.Figure
	if !q.OfThermometer {
		figures = append(figures,
			show.Quiet(v.Figure("strength", "True strength of the liquid", g.Strength)),
			v.Figure("expected_reading", v.Say("A true one shows, at %v", q.Test.Sample.Temperature), v.Fine(in(g.Expected), half)))
	}
	return append(figures,
		offset,
		show.Quiet(v.Figure("offset_low", "Shows too much, low end", in(g.Low()))),
		show.Quiet(v.Figure("offset_high", "Shows too much, high end", in(g.High()))),
		v.Figure("offset_sure", "Known within, either way", v.Fine(in(g.OffsetSure()), half)),
		v.Figure("division", "Between two marks", in(division)),
		show.Quiet(report.Figure{Key: "within_division", Label: "Within a division", Value: report.Word(show.YesNo(math.Abs(g.Offset) <= division))}))
}

// verdict says the offset, and what to do about it.
func (q *glass) verdict(v show.View, g brine.GlassResult, in func(float64) quantity.Quantity, division float64) string {
	name, half := q.named(), in(g.Sure.Half())
	way, size := "high", v.Fine(in(math.Abs(g.Offset)), half)
	if g.Offset < 0 {
		way = "low"
	}
	reads := v.Say("%s reads %v too %s (%s too much)", name, size, way, v.FineRange(in(g.Low()), in(g.High()), half))
	switch {
	case !g.Told():
		return v.Say("%s: no offset can be told; it lies between %s.", name, v.Between(in(g.Low()), in(g.High()), half))
	case math.Abs(g.Offset) <= division:
		return reads + ", which is within a division: take it off (--write), and it serves."
	}
	return v.Say("%s, more than a division of %v: test it again, and if it stays so replace it.", reads, in(division))
}

// named is the instrument in a sentence.
func (q *glass) named() string {
	switch {
	case q.OfThermometer:
		return "The thermometer"
	case q.Glass.Name != "":
		return "Instrument " + words.Quoted(q.Glass.Name)
	}
	name := q.Test.Sample.Instrument.Scale.Words()
	return strings.ToUpper(name[:1]) + name[1:]
}

func (q *glass) notes(v show.View, g brine.GlassResult, in func(float64) quantity.Quantity) []string {
	var notes []string
	switch {
	case q.OfThermometer:
		notes = append(notes, "Crushed ice and water, stirred, the bulb in the ice: within 0.1 C of 0 C. Common practice, no source.")
	case q.Test.Salt > 0:
		notes = append(notes, "The salt is taken to be dry and pure NaCl, like table salt without iodine or anything against caking; rock salt will not do.")
	default:
		notes = append(notes, "Water tells of the lowest mark alone: a brine that was weighed out tests where the glass is used.")
	}
	if was := q.Test.Sample.Instrument.Offset; !q.OfThermometer && was != 0 {
		notes = append(notes, v.Say("The yard file had %v.", v.Fine(in(was), in(g.Sure.Half()))))
	}
	if q.write {
		notes = append(notes, v.Say("Offset, how sure it is, and the day were written into the yard file."))
	}
	return notes
}

// save writes the offset into the yard file.
func (q *glass) save(s *run.Session, g brine.GlassResult) error {
	table, index, of := "thermometer", 0, func(x float64) string { return inUnit(quantity.Difference(x)) }
	if !q.OfThermometer {
		table, of = "glass", func(x float64) string { return inUnit(q.Test.Sample.Instrument.Scale.Quantity(x)) }
		index = slices.IndexFunc(s.Yard.Glasses, func(other yard.Glass) bool { return other.Name == q.Glass.Name })
	}
	return s.EditYard("--write", table, index, []run.Setting{
		{Key: "offset", Text: of(g.Offset)}, {Key: "offset_sure", Text: of(g.OffsetSure())},
		{Key: "checked", Text: strconv.Quote(s.Env.Now().Format(time.DateOnly))},
	}, func(now *yard.Yard) bool {
		got := now.Thermometer.Offset
		if !q.OfThermometer {
			got = now.Glasses[index].Offset
		}
		return math.Abs(got-g.Offset) <= 1e-6*math.Abs(g.Offset)+1e-12
	})
}

// inUnit is a quantity as the yard file holds it, with all its digits that matter.
func inUnit(q quantity.Quantity) string {
	shown := q.In(quantity.US)
	unit := shown.Unit
	if unit == "deg" {
		unit = ""
	}
	return strconv.Quote(strconv.FormatFloat(shown.Value, 'g', 7, 64) + unit)
}
