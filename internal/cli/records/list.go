package records

import (
	"fmt"
	"iter"
	"maps"
	"slices"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/report"
	"brineyard/internal/words"
)

var listCommand = run.Command{
	Use:   "list",
	Short: "Show entries",
	Long: "list shows the entries, with those taken back marked. The other formats have\n" +
		"every column.",
	Example:   "  brineyard journal list --from 2026-01-01 --kind batch\n  brineyard journal list --tank mixer --format csv",
	Args:      run.NoArguments,
	New:       func() run.Question { return &list{} },
	NoWorking: "No working: entries are shown as they were kept.",
}

type list struct {
	period     journal.Period
	tank, kind string // empty for all
}

// Bind binds the period, the kind and the tank to list.
func (q *list) Bind(b *bind.Set) {
	bindPeriod(b, &q.period)
	bind.Name(b, &q.tank, "tank", "`tank` that it is about, went into or came from", bind.TankNames)
	var kinds []string
	for _, k := range journal.Kinds() {
		kinds = append(kinds, string(k))
	}
	bind.OneOf(b, &q.kind, "kind", "kind of entry: "+words.Joined(kinds, ""), "", bind.Words(kinds...)...)
}

// Answer lists the entries.
func (q *list) Answer(s *run.Session) (run.Reply, error) {
	path := s.JournalPath()
	l, err := openJournal(s)
	if err != nil {
		return run.Reply{}, err
	}
	n, err := q.count(l)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{Words: func(d *report.Document) {
		d.Title, d.Verdict = "Journal", fmt.Sprintf("%d of the %d entries in %s.", n, l.Rows, path)
		if n > 0 && people(s) {
			d.Tables = append(d.Tables, summaryTable(s.View, q.wanted(l), l.TakenBack()))
			return
		}
		d.Tables = append(d.Tables, entriesTable(s.View, q.wanted(l), l.TakenBack()))
	}}, nil
}

// count finds the tank that was meant, and tells how many entries are wanted.
func (q *list) count(l *disk.Log) (n int, err error) {
	if q.tank != "" {
		if q.tank, err = namedByEntries(l, q.tank); err != nil {
			return 0, err
		}
	}
	for range q.wanted(l) {
		n++
	}
	if err := l.Err(); err != nil {
		return 0, run.JournalError(err)
	}
	return n, nil
}

// wanted goes through the entries that are asked for; each is valid until the next.
func (q *list) wanted(l *disk.Log) iter.Seq[*journal.Entry] {
	return func(yield func(*journal.Entry) bool) {
		for e := range l.All() {
			if q.wants(e) && !yield(e) {
				return
			}
		}
	}
}

func (q *list) wants(e *journal.Entry) bool {
	return q.period.Has(e.Time) &&
		(q.tank == "" || q.tank == e.Tank || q.tank == e.From) &&
		(q.kind == "" || q.kind == string(e.Kind))
}

// namedByEntries finds the tank that a typed name means among those that entries are about, and
// refuses one of none. A journal without tanks has nothing to list.
func namedByEntries(l *disk.Log, typed string) (string, error) {
	about := map[string]bool{}
	for e := range l.All() {
		about[e.Tank], about[e.From] = true, true
	}
	if err := l.Err(); err != nil {
		return "", run.JournalError(err)
	}
	delete(about, "")
	names := slices.Sorted(maps.Keys(about))
	if len(names) == 0 {
		return typed, nil
	}
	if name, known := words.Match(typed, names); known {
		return name, nil
	}
	return "", fault.Refuse("--tank %s: no entry is about it; %s", words.Quoted(typed), words.Allowed(typed, names))
}
