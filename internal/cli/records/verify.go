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
	"brineyard/internal/journal"
	"brineyard/internal/report"
)

var verifyCommand = run.Command{
	Use:   "verify",
	Short: "Go through the whole file and say what is wrong with it",
	Long: "verify reads every row and its check, and lists what is damaged, changed outside\n" +
		"the program, missing or out of order. Nothing is changed.",
	Example:   "  brineyard journal verify\n  brineyard journal verify --journal second.csv",
	Args:      run.NoArguments,
	New:       func() run.Question { return &verify{} },
	NoWorking: "No working: rows are read and checked, nothing is worked out.",
}

type verify struct{}

// Bind binds nothing: the journal is that in use.
func (q *verify) Bind(*bind.Set) {}

// Answer goes through the journal.
func (q *verify) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	a, err := journal.Verify(path)
	if err != nil {
		return run.Reply{}, run.JournalError(err)
	}
	reply := run.Reply{Figures: auditFigures(a), Words: func(d *report.Document) {
		d.Title = "Journal, gone through"
		d.Verdict = fmt.Sprintf("%s is sound: %d entries, every one whole.", path, len(a.Entries))
		if !a.Sound() {
			d.Verdict = fmt.Sprintf("%s needs a look: %s.", path, strings.Join(unsound(a), ", "))
		}
		d.Tables = auditTables(a)
		for _, f := range a.Backwards {
			d.Notes = append(d.Notes, f.String())
		}
	}}
	if !a.Sound() {
		reply.End = run.ErrUnsound
	}
	return reply, nil
}

func auditFigures(a *journal.Audit) []report.Figure {
	figures := []report.Figure{{Key: "entries", Label: "Entries", Value: show.Count(len(a.Entries))}}
	if len(a.Entries) == 0 {
		return figures
	}
	return append(figures,
		report.Figure{Key: "first", Label: "First", Value: report.Word(a.First.Format(time.RFC3339))},
		report.Figure{Key: "last", Label: "Last", Value: report.Word(a.Last.Format(time.RFC3339))})
}

// auditTables are those that have rows.
func auditTables(a *journal.Audit) []report.Table {
	kinds := report.Table{Key: "kinds", Title: "Kinds", Columns: []report.Column{{Key: "kind", Label: "Kind"}, {Key: "entries", Label: "Entries"}}}
	for _, k := range slices.Sorted(maps.Keys(a.Kinds)) {
		kinds.Rows = append(kinds.Rows, []report.Value{report.Word(string(k)), show.Count(a.Kinds[k])})
	}
	faults := report.Table{Key: "faults", Title: "What is wrong", Columns: []report.Column{{Key: "line", Label: "Line"}, {Key: "what", Label: "What"}}}
	for _, f := range slices.Concat(a.Faults, a.Dangling) {
		faults.Rows = append(faults.Rows, []report.Value{show.Count(f.Line), report.Word(f.Text)})
	}
	return slices.DeleteFunc([]report.Table{kinds, faults}, func(t report.Table) bool { return len(t.Rows) == 0 })
}

// unsound names what is wrong, with how much of it.
func unsound(a *journal.Audit) []string {
	var parts []string
	for _, p := range []struct {
		n         int
		one, many string
	}{
		{len(a.Faults), "row that is not as it should be", "rows that are not as they should be"}, {len(a.Repeated), "number twice", "numbers twice"},
		{len(a.Missing), "gap in the numbers", "gaps in the numbers"}, {len(a.Dangling), "reversal of nothing", "reversals of nothing"},
		{int(a.Torn), "byte of a torn last line", "bytes of a torn last line"},
	} {
		if p.n > 0 {
			parts = append(parts, show.Plural(p.n, p.one, p.many))
		}
	}
	return parts
}
