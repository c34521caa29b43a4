package records

import (
	"fmt"
	"slices"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
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
	j, err := readJournal(s)
	if err != nil {
		return run.Reply{}, err
	}
	if q.tank, err = namedByEntries(j, q.tank); err != nil {
		return run.Reply{}, err
	}
	var some []*journal.Entry
	for i := range j.Entries {
		if e := &j.Entries[i]; q.wants(e) {
			some = append(some, e)
		}
	}
	return run.Reply{Words: func(d *report.Document) {
		d.Title, d.Verdict = "Journal", fmt.Sprintf("%d of the %d entries in %s.", len(some), len(j.Entries), path)
		back := journal.TakenBack(j.Entries)
		if people := s.Globals.Format.Name; len(some) > 0 && (people == "text" || people == "markdown") {
			d.Tables = append(d.Tables, summaryTable(s.View, some, back))
		}
		d.Tables = append(d.Tables, entriesTable(s.View, some, back))
	}}, nil
}

func (q *list) wants(e *journal.Entry) bool {
	return q.period.Has(e.Time) &&
		(q.tank == "" || q.tank == e.Tank || q.tank == e.From) &&
		(q.kind == "" || q.kind == string(e.Kind))
}

// namedByEntries finds the tank that a typed name means among those that entries are about, and
// refuses one of none. An empty name is none, and a journal without tanks has nothing to list.
func namedByEntries(j *journal.Journal, typed string) (string, error) {
	if typed == "" {
		return "", nil
	}
	var names []string
	for i := range j.Entries {
		names = append(names, j.Entries[i].Tank, j.Entries[i].From)
	}
	slices.Sort(names)
	names = slices.DeleteFunc(slices.Compact(names), func(n string) bool { return n == "" })
	if len(names) == 0 {
		return typed, nil
	}
	if name, known := words.Match(typed, names); known {
		return name, nil
	}
	return "", fault.Refuse("--tank %s: no entry is about it; %s", words.Quoted(typed), words.Allowed(typed, names))
}
