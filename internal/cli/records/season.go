package records

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"time"

	"brineyard/internal/chart"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/derive"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/picture"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"brineyard/internal/state"
	"brineyard/internal/words"
)

var seasonCommand = run.Command{
	Use:   "season",
	Short: "What a season made, laid down, used and cost",
	Long: "season sums up the journal. It tells the gallons made, laid and left, by month\n" +
		"and liquid. It tells salt and chloride, and how many batches were in the band.\n" +
		"It lists operators, routes, work, and what was paid. It balances the salt, and\n" +
		"says when a mixing tank needs cleaning. --table with --format csv writes one\n" +
		"table alone.",
	Example: "  brineyard journal season --from 2025-11-01 --to 2026-03-31\n  brineyard journal season --svg season.svg\n" +
		"  brineyard journal season --table months --format csv",
	Args:      run.NoArguments,
	New:       func() run.Question { return &seasonSum{} },
	NoWorking: "No working here: there are no entries to balance.",
}

type seasonSum struct {
	period  journal.Period
	svg     string // empty for none
	replace bool   // a picture that is there
	table   string // empty for all
	ascii   bool
}

// Bind binds the period.
func (q *seasonSum) Bind(b *bind.Set) {
	bindPeriod(b, &q.period)
	bind.Switch(b, &q.ascii, "ascii", "draw charts with plain characters alone")
	bind.Name(b, &q.table, "table", "show this `table` alone, by its key, like months, stocks, movements, routes, work or paid", nil)
	bind.Name(b, &q.svg, "svg", "write the charts to this `file` as a picture too", nil)
	bind.Switch(b, &q.replace, "replace", "write the picture anew where there is one")
	b.Then(func(*bind.Scope) error {
		if q.replace && q.svg == "" {
			return fault.Refuse("--replace: there is no picture to replace; allowed: with --svg and a file")
		}
		return nil
	})
}

// Answer sums up the period.
func (q *seasonSum) Answer(s *run.Session) (run.Reply, error) {
	r, err := q.sumUp(s)
	if err != nil {
		return run.Reply{}, err
	}
	charts := seasonCharts(s.View, r, r.Band)
	left, err := q.picture(s, charts)
	if err != nil {
		return run.Reply{}, err
	}
	tables := seasonTables(s.View, r)
	if q.table != "" {
		return q.oneTable(s, tables)
	}
	return run.Reply{
		Figures: seasonFigures(s.View, r),
		Words: func(d *report.Document) {
			d.Title, d.Verdict, d.Notes = "Season", seasonVerdict(s.View, r), seasonNotes(s.View, r)
			d.Cautions = []string{show.CautionEntry, show.CautionDrain, show.CautionLocal}
			d.Doubts = show.Said(left)
			d.Tables, d.Charts, d.ASCII = withRows(tables...), charts, q.ascii
		},
		Working: func() []report.Step { return derive.Season(s.View, r) },
	}, nil
}

// sumUp reads the journal and sums up the period.
func (q *seasonSum) sumUp(s *run.Session) (season.Report, error) {
	l, err := openJournal(s)
	if err != nil {
		return season.Report{}, err
	}
	request := season.Request{Yard: s.Yard, Period: q.period, Changed: len(l.Faults)}
	r := season.SumUp(request, l.Effective())
	if err := l.Err(); err != nil {
		return r, run.JournalError(err)
	}
	return r, nil
}

// oneTable shows one table alone: as CSV it is a sheet of its own.
func (q *seasonSum) oneTable(s *run.Session, tables []report.Table) (run.Reply, error) {
	t, err := tableNamed(q.table, tables)
	if err != nil {
		return run.Reply{}, err
	}
	if s.Globals.Format.Name == "csv" {
		return run.Reply{}, writeFlat(s, t)
	}
	t.Quiet = false
	return run.Reply{Words: func(d *report.Document) {
		d.Title, d.Verdict, d.Tables = "Season", t.Title+".", []report.Table{t}
	}}, nil
}

// picture writes the charts into a file where that is asked. One that is there stays, unless it is to be replaced, and the
// report says so.
func (q *seasonSum) picture(s *run.Session, charts []chart.Chart) (left string, err error) {
	if q.svg == "" {
		return "", nil
	}
	image, err := drawPicture(q.svg, charts)
	if err != nil {
		return "", err
	}
	was, err := s.Env.Read(q.svg)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "", s.Env.CreateNew("--svg", q.svg, image)
	case err != nil:
		return "", fault.Refuse("--svg %s: cannot be written there: %v; allowed: a file, or a new name", words.Quoted(q.svg), run.Reason(err))
	case !q.replace:
		return "File " + words.Quoted(q.svg) + " was there and stays as it is; --replace writes it anew.", nil
	}
	return "", s.Env.Replace(q.svg, was, image)
}

// drawPicture draws charts.
func drawPicture(path string, charts []chart.Chart) ([]byte, error) {
	if len(charts) == 0 {
		return nil, fault.Refuse("--svg %s: too few batches for a chart; allowed: two or more", words.Quoted(path))
	}
	var image bytes.Buffer
	err := picture.SVG(&image, charts)
	return image.Bytes(), err
}

func seasonVerdict(v show.View, r season.Report) string {
	if r.Entries == 0 {
		return "No entries in this period."
	}
	return v.Say("From %s to %s: %v made, %v laid down, %d of %d batches in the band.",
		day(r.First), day(r.Last), r.Total.Made, r.Total.Laid, r.Judged.In, len(r.Batches)) + seasonDoubts(v, r)
}

// seasonDoubts say, at the head, how far the sums can be trusted; nothing where they can.
func seasonDoubts(v show.View, r season.Report) string {
	var text string
	if r.Changed > 0 {
		text += v.Say(" Rows that were changed outside the program: %d; journal verify lists them.", r.Changed)
	}
	if r.LeftOut > 0 {
		text += v.Say(" Left out, as they make no sense: %s.", show.Plural(r.LeftOut, "entry", "entries"))
	}
	if unexplained := r.Flows[state.Unexplained].Volume; unexplained > 0 {
		text += v.Say(" Recorded, not explained: %v.", unexplained)
	}
	if gone := -r.Flows[state.Gone].Volume; gone > 0 {
		text += v.Say(" Missing, with no entry that says where it went: %v.", gone)
	}
	return text
}

func day(t time.Time) string { return t.Format(dayLayout) }

func seasonFigures(v show.View, r season.Report) []report.Figure {
	figures := []report.Figure{
		show.Quiet(v.Figure("made", "Made", r.Total.Made)), show.Quiet(v.Figure("laid", "Laid down", r.Total.Laid)),
		batchesFigure(v, r), show.Quiet(v.Figure("batches_in_band", "In the band", quantity.Count(r.Judged.In))),
		show.Quiet(v.Figure("batches_on_edge", "On the edge of the band", quantity.Count(r.Judged.Edge))),
		v.Figure("salt_used", "Salt used, by the entries", r.Total.Salt), v.Figure("water_used", "Water used", r.Total.Water),
		v.Figure("salt_laid", "Salt laid down, as NaCl", r.Total.NaCl), v.Figure("chloride_laid", "Chloride laid down", r.Total.Chlorides),
	}
	figures = append(figures, saltFigures(v, r.Salt)...)
	figures = append(figures, workFigures(v, r)...)
	return append(figures,
		show.Quiet(report.Figure{Key: "changed_rows", Label: "Rows changed", Value: show.Count(r.Changed)}),
		show.Quiet(report.Figure{Key: "left_out", Label: "Left out", Value: show.Count(r.LeftOut)}),
		show.Quiet(v.Figure("unexplained", "Recorded, not explained", r.Flows[state.Unexplained].Volume)),
		show.Quiet(v.Figure("taken_as_gone", "Missing, by no entry", -r.Flows[state.Gone].Volume)),
		show.QuietUnless(r.Total.Moved > 0, v.Figure("moved", "Moved between tanks", r.Total.Moved)),
		v.Figure("paid", "Paid, as recorded", r.Paid),
		show.Known(v, "reckoned", "Salt and water at the yard's prices", r.AtYardPrices))
}

func batchesFigure(v show.View, r season.Report) report.Figure {
	f := v.Figure("batches", "Batches", quantity.Count(len(r.Batches)))
	f.Value.Text = fmt.Sprintf("%d, of them %d in the band, %d on the edge, %d too weak, %d too strong", len(r.Batches), r.Judged.In, r.Judged.Edge, r.Judged.Weak, r.Judged.Strong)
	return f
}

// saltFigures are the balance of the pile.
func saltFigures(v show.View, b season.SaltBalance) []report.Figure {
	gone := v.Figure("salt_gone", "Salt gone from the pile", b.Gone)
	gone.Value.Text = v.Say("%v (had %v, delivered %v, left %v)", b.Gone, b.Opening, b.Delivered, b.Closing)
	unexplained := v.Figure("salt_unexplained", "Not explained", b.Unexplained)
	if !b.Explains() {
		gone.Value.Text = v.Say("%v, by the entries alone", b.Gone)
		unexplained.Value = report.Nothing(unexplained.Value.Unit, "not known without counts of the pile")
	}
	explained := v.Figure("salt_in_brine", "In the brine, as NaCl", b.InBrine)
	explained.Value.Text = v.Say("%v; moisture %v, insolubles %v", b.InBrine, b.Moisture, b.Insolubles)
	return []report.Figure{
		gone, show.Quiet(v.Figure("salt_delivered", "Salt delivered", b.Delivered)), explained,
		show.QuietUnless(b.Elsewhere != 0, v.Figure("salt_elsewhere", "Spread dry, lost, sold or on beds, as NaCl", b.Elsewhere)),
		show.Quiet(v.Figure("salt_moisture", "Moisture", b.Moisture)), show.Quiet(v.Figure("salt_insolubles", "Insolubles", b.Insolubles)),
		unexplained,
	}
}

func seasonNotes(v show.View, r season.Report) []string {
	if r.Entries == 0 {
		return nil
	}
	notes := []string{balanceNote(v, r.Salt)}
	for _, c := range r.Cleanings {
		switch {
		case c.Learned > 0:
			notes = append(notes, v.Say("%s: the interval is the mean of its last %s.", c.Tank, show.Plural(c.Learned, "cleaning", "cleanings")))
		case c.Interval > 0:
			notes = append(notes, v.Say("%s: the interval is the yard file's; one will be learned from cleanings.", c.Tank))
		}
	}
	return append(notes, problemNotes(v, r.Problems, r.Unlisted)...)
}

// balanceNote says what the salt that is not explained means.
func balanceNote(v show.View, b season.SaltBalance) string {
	switch {
	case !b.Counted:
		return "Two counts of the salt pile (journal add count --salt) would show what no entry tells; this balance goes by the entries alone."
	case b.Notable() && b.Unexplained > 0:
		return v.Say("%v of salt are not explained by moisture and insolubles: spilt, used elsewhere, not recorded, or less delivered than paid for.", b.Unexplained)
	case b.Notable():
		return v.Say("The brine holds %v more salt than left the pile: a delivery or a count is missing, or readings are too high.", -b.Unexplained)
	}
	return "The rest is within the accuracy of a loader's bucket."
}
