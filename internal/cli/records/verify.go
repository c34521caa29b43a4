package records

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/report"
	"brineyard/internal/state"
)

var verifyCommand = run.Command{
	Use:   "verify",
	Short: "Go through the whole file and say what is wrong with it",
	Long: "verify reads every row and its check. It lists rows that are damaged, missing\n" +
		"or out of order. It lists what was changed outside the program, or is gone\n" +
		"from the end. It lists entries that make no sense beside the others.",
	Example:   "  brineyard journal verify\n  brineyard journal verify --journal second.csv",
	Args:      run.NoArguments,
	New:       func() run.Question { return &verify{} },
	NoWorking: "No working: rows are read and checked, nothing is worked out.",
}

type verify struct{}

// Bind binds nothing: the journal is that in use.
func (q *verify) Bind(*bind.Set) {}

// Answer goes through the journal, and replays it: entries that make no sense are told too, but
// the file is sound with them.
func (q *verify) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	l, err := disk.Open(path)
	if err != nil {
		return run.Reply{}, run.JournalError(err)
	}
	defer l.Close()
	now := state.Replay(s.Yard, l.Effective())
	if err := l.Err(); err != nil {
		return run.Reply{}, run.JournalError(err)
	}
	a := &l.Audit
	reply := run.Reply{Figures: auditFigures(a, now), Words: func(d *report.Document) {
		d.Title = "Journal, gone through"
		d.Verdict = auditVerdict(path, a)
		d.Tables = withRows(kindsTable(a), faultsTable("faults", "What is wrong", a.Faults, a.Dangling),
			faultsTable("accepted", "What was looked at and accepted", a.Accepted.Faults, a.Accepted.Dangling), oddTable(s.View, now))
		d.Notes = auditNotes(s, path, a, now)
	}}
	if !a.Sound() {
		reply.End = run.ErrUnsound
	}
	return reply, nil
}

func auditVerdict(path string, a *disk.Audit) string {
	if !a.Sound() {
		return fmt.Sprintf("%s needs a look: %s.", path, strings.Join(unsound(a), ", "))
	}
	if a.End != disk.EndKnown && a.Rows > 0 {
		return fmt.Sprintf("%s is sound as far as it goes: %d entries, every one whole; but its side file %s.", path, a.Rows, a.End)
	}
	return fmt.Sprintf("%s is sound: %d entries, every one whole.", path, a.Rows)
}

func auditFigures(a *disk.Audit, now *state.State) []report.Figure {
	figures := []report.Figure{{Key: "entries", Label: "Entries", Value: show.Count(a.Rows)}}
	if a.Rows == 0 {
		return figures
	}
	figures = append(figures,
		report.Figure{Key: "first", Label: "First", Value: report.Word(a.First.Format(time.RFC3339))},
		report.Figure{Key: "last", Label: "Last", Value: report.Word(a.Last.Format(time.RFC3339))},
		show.Quiet(report.Figure{Key: "end_known", Label: "End known", Value: report.Word(show.YesNo(a.End == disk.EndKnown))}),
		show.Quiet(report.Figure{Key: "left_out", Label: "Left out", Value: show.Count(now.LeftOut)}))
	if a.Lost != (journal.Span{}) {
		figures = append(figures, report.Figure{Key: "lost", Label: "Gone from the end", Value: report.Word("entries " + a.Lost.String())})
	}
	return figures
}

func kindsTable(a *disk.Audit) report.Table {
	t := report.Table{Key: "kinds", Title: "Kinds", Columns: []report.Column{{Key: "kind", Label: "Kind"}, {Key: "entries", Label: "Entries"}}}
	for _, k := range slices.Sorted(maps.Keys(a.Kinds)) {
		t.Rows = append(t.Rows, []report.Value{report.Word(string(k)), show.Count(a.Kinds[k])})
	}
	return t
}

func faultsTable(key, title string, faults ...[]journal.Fault) report.Table {
	t := report.Table{Key: key, Title: title, Columns: []report.Column{{Key: "line", Label: "Line"}, {Key: "entry", Label: "Entry"}, {Key: "what", Label: "What"}}}
	for _, f := range slices.Concat(faults...) {
		number := report.Nothing("", "?")
		if f.Number > 0 {
			number = show.Count(f.Number)
		}
		t.Rows = append(t.Rows, []report.Value{show.Count(f.Line), number, report.Word(f.Text)})
	}
	return t
}

// oddTable lists the entries that make no sense, or that the others contradict.
func oddTable(v show.View, now *state.State) report.Table {
	t := report.Table{Key: "odd", Title: "Entries that the others contradict", Columns: []report.Column{{Key: "entry", Label: "Entry"}, {Key: "what", Label: "What"}}}
	for _, p := range now.Problems {
		if p.Cannot || p.LeftOut {
			t.Rows = append(t.Rows, []report.Value{show.Count(p.Entry), report.Word(fault.Sentence(p.Text, p.Args, v.System))})
		}
	}
	return t
}

func auditNotes(s *run.Session, path string, a *disk.Audit, now *state.State) []string {
	var notes []string
	for _, f := range a.Backwards {
		notes = append(notes, f.String())
	}
	if len(a.Faults)+len(a.Dangling) > 0 {
		notes = append(notes, "journal accept and the number of an entry says that you have looked at it.")
	}
	if a.Lost != (journal.Span{}) {
		notes = append(notes, s.View.Say("Entries %s were recorded and are gone from the end of %s: look for a copy that has them. Their numbers are not given again.", a.Lost, path))
	}
	switch {
	case a.Resaved != "":
		notes = append(notes, s.View.Say("%s was saved by a spreadsheet: %s. Put back a copy as it was, and save spreadsheets under another name.", path, a.Resaved))
	case a.End == disk.EndForeign:
		notes = append(notes, s.View.Say("Somebody put another journal in the place of %s, or took the side file of another: look which one is the yard's.", path))
	case a.Sound() && a.End != disk.EndKnown && a.Rows > 0:
		notes = append(notes, s.View.Say("The side file %s.end tells which entry was recorded last; the next entry writes it. Copy both files.", path))
	}
	if now.Unlisted > 0 {
		notes = append(notes, s.View.Say("More entries that do not fit the others, which are not listed: %d.", now.Unlisted))
	}
	return notes
}

// unsound names what is wrong, with how much of it.
func unsound(a *disk.Audit) []string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{a.LostRows(), "entry gone from its end", "entries gone from its end"},
		{len(a.Faults), "row that is not as it should be", "rows that are not as they should be"}, {len(a.Repeated), "number twice", "numbers twice"},
		{len(a.Missing), "gap in the numbers", "gaps in the numbers"}, {len(a.Dangling), "reversal of nothing", "reversals of nothing"},
		{int(a.Torn), "byte of a torn end", "bytes of a torn end"},
	} {
		if p.n > 0 {
			parts = append(parts, show.Plural(p.n, p.one, p.many))
		}
	}
	return parts
}
