package cli

import (
	"bytes"
	"fmt"
	"math"
	"time"

	"brineyard/internal/chart"
	"brineyard/internal/journal"
	"brineyard/internal/picture"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

type seasonOptions struct {
	from, to, journal *text
	svg               text
	ascii             *bool
}

func newJournalSeason(env *Env, g *globals) *cobra.Command {
	o := &seasonOptions{}
	cmd := &cobra.Command{
		Use:   "season",
		Short: "What a season made, laid down, used and cost",
		Long: "season sums up the journal: gallons made and laid by month and liquid, salt and\n" +
			"chloride, batches in and out of the band, operators, routes, the salt balance,\n" +
			"and when a mixing tank is to be cleaned next.",
		Example: "  brineyard journal season --from 2025-11-01 --to 2026-03-31\n  brineyard journal season --svg season.svg",
		Args:    noArguments,
		RunE:    func(*cobra.Command, []string) error { return runSeason(env, g, o) },
	}
	f := cmd.Flags()
	o.from, o.to = periodFlags(f)
	o.journal = journalFlag(f)
	o.ascii = asciiFlag(f)
	f.Var(&o.svg, "svg", "write the charts to this `file` as a picture too")
	return cmd
}

// asciiFlag asks for charts that any terminal shows.
func asciiFlag(f *pflag.FlagSet) *bool {
	return f.Bool("ascii", false, "draw charts with plain characters alone")
}

func runSeason(env *Env, g *globals, o *seasonOptions) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	r := season.Request{Shop: s.shop()}
	if r.From, r.To, err = s.period(o.from, o.to); err != nil {
		return err
	}
	path := s.journalPath(o.journal)
	j, err := s.readJournal(path)
	if err != nil {
		return err
	}
	p, _ := season.Season(r, journal.Effective(j.Entries))
	d := seasonDocument(s, p, r.Shop.Band)
	d.ASCII = *o.ascii
	if o.svg.given {
		if err := s.writePicture(o.svg.value, d.Charts); err != nil {
			return err
		}
	}
	return s.write(d)
}

// writePicture makes a new file with charts.
func (s *setting) writePicture(path string, charts []chart.Chart) error {
	if len(charts) == 0 {
		return usagef("--svg %s: too few batches for a chart; allowed: two or more", words.Quoted(path))
	}
	var image bytes.Buffer
	if err := picture.SVG(&image, charts); err != nil {
		return err
	}
	return createNew(s.env, "--svg", path, image.Bytes())
}

func seasonDocument(s *setting, p season.Report, band yard.Band) *report.Document {
	d := &report.Document{
		Command: "journal season", Title: "Season",
		Verdict:  s.seasonVerdict(p),
		Figures:  s.seasonFigures(p),
		Notes:    s.seasonNotes(p),
		Cautions: []string{cautionEntry, cautionDrain, cautionLocal},
	}
	for _, t := range []report.Table{s.monthsTable(p), s.boughtTable(p), s.operatorsTable(p), s.routesTable(p), s.cleaningTable(p)} {
		if len(t.Rows) > 0 {
			d.Tables = append(d.Tables, t)
		}
	}
	d.Charts = s.seasonCharts(p, band)
	d.Working = s.seasonWorking(p)
	return d
}

func (s *setting) seasonVerdict(p season.Report) string {
	if p.Entries == 0 {
		return "No entries in this period."
	}
	return s.show("From %s to %s: %v made, %v laid down, %d of %d batches in the band.",
		day(p.First), day(p.Last), p.Total.Made, p.Total.Laid, p.Band.In, len(p.Batches))
}

func day(t time.Time) string { return t.Format("2006-01-02") }

func (s *setting) seasonFigures(p season.Report) []report.Figure {
	b := p.Salt
	band := s.figure("batches", "Batches", quantity.Count(len(p.Batches)))
	band.Value.Text = fmt.Sprintf("%d, of them %d in the band, %d too weak, %d too strong", len(p.Batches), p.Band.In, p.Band.Weak, p.Band.Strong)
	gone := s.figure("salt_gone", "Salt gone from the pile", b.Gone)
	gone.Value.Text = s.show("%v (had %v, delivered %v, left %v)", b.Gone, b.Opening, b.Delivered, b.Closing)
	unexplained := s.figure("salt_unexplained", "Not explained", b.Unexplained)
	if !b.Counted && b.Closing < 0 {
		// There was more salt than was ever counted or delivered.
		gone.Value.Text = s.show("%v, by the entries alone", b.Gone)
		unexplained.Value = report.Nothing(unexplained.Value.Unit, "not known without counts of the pile")
	}
	explained := s.figure("salt_in_brine", "In the brine, as NaCl", b.InBrine)
	explained.Value.Text = s.show("%v; moisture %v, insolubles %v", b.InBrine, b.Moisture, b.Insolubles)
	figures := []report.Figure{
		quiet(s.figure("made", "Made", p.Total.Made)), quiet(s.figure("laid", "Laid down", p.Total.Laid)),
		band, quiet(s.figure("batches_in_band", "In the band", quantity.Count(p.Band.In))),
		s.figure("salt_used", "Salt used, by the entries", p.Total.Salt), s.figure("water_used", "Water used", p.Total.Water),
		s.figure("salt_laid", "Salt laid down, as NaCl", p.Total.NaCl), s.figure("chloride_laid", "Chloride laid down", p.Total.Chlorides),
		gone, quiet(s.figure("salt_delivered", "Salt delivered", b.Delivered)), explained,
		quiet(s.figure("salt_moisture", "Moisture", b.Moisture)), quiet(s.figure("salt_insolubles", "Insolubles", b.Insolubles)),
		unexplained,
		s.figure("paid", "Paid, as recorded", p.Paid),
	}
	return append(figures, known(s, "reckoned", "Salt and water at the yard's prices", p.Reckoned))
}

// seasonWorking is the salt balance.
func (s *setting) seasonWorking(p season.Report) []report.Step {
	b, rock, k := p.Salt, s.cardSalt(), &pocket{system: s.system}
	if p.Entries == 0 {
		return nil
	}
	had, delivered, left, inBrine := k.of(b.Opening), k.of(b.Delivered), k.of(b.Closing), k.of(b.InBrine)
	gone := k.step("Salt gone from the pile", "had + delivered - left", "{} + {} - {}", []term{had, delivered, left}, had.value+delivered.value-left.value, had.unit)
	moisture, purity := k.share(rock.Moisture), k.share(rock.Purity)
	wet := k.step("Water in it", "salt gone x moisture", "{} x {}", []term{gone, moisture}, gone.value*moisture.value, had.unit)
	sludge := k.step("What does not dissolve", "salt gone x (1 - moisture) x (1 - purity)", "{} x (1 - {}) x (1 - {})",
		[]term{gone, moisture, purity}, gone.value*(1-moisture.value)*(1-purity.value), had.unit)
	k.read("NaCl in the brine made, and added in corrections", "volumes x densities x strengths of the entries", inBrine)
	k.step("Not explained", "gone - water - insolubles - in the brine", "{} - {} - {} - {}",
		[]term{gone, wet, sludge, inBrine}, gone.value-wet.value-sludge.value-inBrine.value, had.unit)
	return k.steps
}

func (s *setting) monthsTable(p season.Report) report.Table {
	t := report.Table{Key: "months", Title: "By month and liquid", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "made", Label: "Made"}, {Key: "laid", Label: "Laid"},
		{Key: "salt", Label: "Salt used"}, {Key: "chloride", Label: "Chloride"}, {Key: "water", Label: "Water"}, {Key: "cost", Label: "Cost"},
	}}
	for _, l := range p.Months {
		if l.Made == 0 && l.Laid == 0 && l.Salt == 0 && l.Water == 0 {
			continue // nothing but a delivery
		}
		t.Rows = append(t.Rows, []report.Value{
			report.Word(l.Month.Format("2006-01")), report.Word(l.Liquid), s.value(l.Made), s.value(l.Laid),
			s.value(l.Salt), s.value(l.Chlorides), s.value(l.Water), s.moneyOr(l.Cost),
		})
	}
	return t
}

// moneyOr shows a cost at the yard's prices, if they are known.
func (s *setting) moneyOr(m *quantity.Money) report.Value {
	if m == nil {
		return report.Nothing("", "-")
	}
	return s.value(*m)
}

// boughtTable lists what came of bought liquids, and what was used.
func (s *setting) boughtTable(p season.Report) report.Table {
	t := report.Table{Key: "bought", Title: "Liquids that are bought", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "delivered", Label: "Delivered"}, {Key: "used", Label: "Used"}, {Key: "cost", Label: "Cost"},
	}}
	for _, l := range p.Months {
		if l.Delivered > 0 || l.Used > 0 {
			t.Rows = append(t.Rows, []report.Value{report.Word(l.Month.Format("2006-01")), report.Word(l.Liquid), s.value(l.Delivered), s.value(l.Used), s.moneyOr(l.Cost)})
		}
	}
	return t
}

func (s *setting) operatorsTable(p season.Report) report.Table {
	t := report.Table{Key: "operators", Title: "Operators", Columns: []report.Column{
		{Key: "operator", Label: "Operator"}, {Key: "batches", Label: "Batches"}, {Key: "in_band", Label: "In the band"}, {Key: "loads", Label: "Loads"}, {Key: "entries", Label: "Entries"},
	}}
	for _, o := range p.Operators {
		t.Rows = append(t.Rows, []report.Value{report.Word(o.Name), numberValue(o.Batches), numberValue(o.InBand), numberValue(o.Loads), numberValue(o.Entries)})
	}
	return t
}

func (s *setting) routesTable(p season.Report) report.Table {
	t := report.Table{Key: "routes", Title: "Routes", Columns: []report.Column{
		{Key: "route", Label: "Route"}, {Key: "loads", Label: "Loads"}, {Key: "volume", Label: "Laid"}, {Key: "chloride", Label: "Chloride"}, {Key: "per_lane", Label: "On a lane"},
	}}
	for _, r := range p.Routes {
		rate := report.Nothing(r.Rate.In(s.system).Unit, "-")
		if r.Rate > 0 {
			rate = s.value(r.Rate)
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(r.Name), numberValue(r.Loads), s.value(r.Volume), s.value(r.Chlorides), rate})
	}
	return t
}

func (s *setting) cleaningTable(p season.Report) report.Table {
	t := report.Table{Key: "cleaning", Title: "Since the last cleaning", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "made_since", Label: "Made"}, {Key: "interval", Label: "Clean every"}, {Key: "left", Label: "Left"},
		{Key: "due", Label: "Due about"}, {Key: "insolubles", Label: "Insolubles"}, {Key: "usual_insolubles", Label: "Cleaned at"},
	}}
	for _, c := range p.Cleanings {
		interval, left, due, sludge := report.Nothing("gal", "-"), report.Nothing("gal", "-"), report.Word("-"), report.Nothing("lb", "-")
		if c.Interval > 0 {
			interval, left = s.value(c.Interval), s.value(c.Left)
		}
		if !c.Date.IsZero() {
			due = report.Word(day(c.Date))
		}
		if c.Learned > 0 {
			sludge = s.value(c.Sludge)
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(c.Tank), s.value(c.Since), interval, left, due, s.value(c.Insolubles), sludge})
	}
	return t
}

func (s *setting) seasonNotes(p season.Report) []string {
	var notes []string
	b := p.Salt
	switch {
	case p.Entries == 0:
		return nil
	case !b.Counted:
		notes = append(notes, "Two counts of the salt pile (journal add count --salt) would show what no entry tells; this balance goes by the entries alone.")
	case b.Called() && b.Unexplained > 0:
		notes = append(notes, s.show("%v of salt are not explained by moisture and insolubles: spilt, used elsewhere, not recorded, or less delivered than paid for.", b.Unexplained))
	case b.Called():
		notes = append(notes, s.show("The brine holds %v more salt than left the pile: a delivery or a count is missing, or readings are too high.", -b.Unexplained))
	default:
		notes = append(notes, "What is not explained is no more than a loader's bucket is known to.")
	}
	for _, c := range p.Cleanings {
		if c.Learned > 0 {
			notes = append(notes, s.show("%s: the interval is the mean of its last %s.", c.Tank, plural(c.Learned, "cleaning", "cleanings")))
		} else if c.Interval > 0 {
			notes = append(notes, s.show("%s: the interval is the yard file's; one will be learned from cleanings.", c.Tank))
		}
	}
	return append(notes, s.problems(p.Problems)...)
}

// seasonCharts draw the strength of each batch, and what was made in each month.
func (s *setting) seasonCharts(p season.Report, band yard.Band) []chart.Chart {
	if len(p.Batches) < 2 {
		return nil
	}
	across := func(name string, mark byte, w quantity.Strength) chart.Series {
		y := 100 * float64(w)
		return chart.Series{Name: name, Mark: mark, Line: true, Points: []chart.Point{{X: 1, Y: y}, {X: float64(len(p.Batches)), Y: y}}}
	}
	batches := chart.Series{Name: "batch", Mark: 'o'}
	for i, b := range p.Batches {
		batches.Points = append(batches.Points, chart.Point{X: float64(i + 1), Y: 100 * float64(b.Strength)})
	}
	strengths := chart.Chart{
		Title: "Strength of each batch, true", X: chart.Axis{Label: "batch", Whole: true}, Y: chart.Axis{Label: "% salt"},
		Series: []chart.Series{across("lowest to pump", '-', band.Low), across("highest", '=', band.High), across("target", '.', band.Target), batches},
	}
	return []chart.Chart{strengths, s.monthsChart(p)}
}

func (s *setting) monthsChart(p season.Report) chart.Chart {
	c := chart.Chart{Title: "Made in each month", Y: chart.Axis{Label: quantity.Gallon.In(s.system).Unit}}
	form := "Jan"
	if n := len(p.Months); n > 0 && p.Months[n-1].Month.Sub(p.Months[0].Month) > 330*24*time.Hour {
		form = "Jan 06"
	}
	for _, l := range p.Months {
		name := l.Month.Format(form)
		if n := len(c.Bars); n == 0 || c.Bars[n-1].Label != name {
			c.Bars = append(c.Bars, chart.Bar{Label: name})
		}
		c.Bars[len(c.Bars)-1].Value += math.Max(0, l.Made.In(s.system).Value)
	}
	return c
}
