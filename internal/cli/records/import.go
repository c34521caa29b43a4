package records

import (
	"fmt"
	"slices"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/journal/sheet"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

var importCommand = run.Command{
	Use:   "import FILE.csv",
	Short: "Take over a log that was kept in a spreadsheet",
	Long: "import reads a CSV file with headings of its own. It adds its rows to the\n" +
		"journal, or none if any has a fault. The map says which column is which. Two\n" +
		"equal signs give every row the same word. A colon gives a unit.",
	Example: "  brineyard journal import old.csv --map time=Date,volume=Made:gal,kind==batch\n" +
		"  brineyard journal import old.csv --map time=Date,note=What,kind==note",
	Args: func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return fault.Refuse("%d words; allowed: one, the CSV file to import", len(args))
		}
		return nil
	},
	New:       func() run.Question { return &importing{} },
	NoWorking: "No working: rows are taken over as they stand.",
}

type importing struct {
	file    string
	mapping sheet.Mapping
	dates   sheet.Dates
	dry     bool
	run.Writing
}

// Bind binds file and map.
func (q *importing) Bind(b *bind.Set) {
	var columns, order string
	given := bind.Name(b, &columns, "map", "`columns`: time=Date,volume=Made:gal,kind==batch,...; required", nil)
	ordered := bind.Name(b, &order, "dates", "`order` of days and months in dates like 1/2/2026: m/d/y or d/m/y (default m/d/y)", nil)
	b.Then(func(s *bind.Scope) (err error) {
		q.file = s.Args[0]
		if !given.Given() {
			return fault.Refuse("--map is missing: which column is which? allowed: like --map time=Date,volume=Made:gal,kind==batch,tank==mixer")
		}
		if q.mapping, err = sheet.ParseMapping(columns); err != nil {
			return fault.Refuse("--map: %v", err)
		}
		if !ordered.Given() {
			return nil
		}
		if q.dates, err = sheet.ParseDates(order); err != nil {
			return fault.Refuse("--dates: %v", err)
		}
		return nil
	})
	q.Writing.Bind(b)
	bind.Switch(b, &q.dry, "dry-run", "say what would be added, and add nothing")
}

// Answer adds the rows.
func (q *importing) Answer(s *run.Session) (run.Reply, error) {
	rows, err := q.read(s)
	if err != nil {
		return run.Reply{}, err
	}
	k := run.Keeping{
		Writing: q.Writing, Command: "journal import", Entries: rows.Entries, Old: true,
		Refuse: func(refused []enter.Refusal) error { return q.faulty(lined(refused, rows.Lines)) },
	}
	if rows.Repeated > 0 {
		s.Tell("brineyard journal import: the clock showed %d of the times twice; each is taken as the first", rows.Repeated)
	}
	if !q.dry {
		return run.Reply{}, s.Keep(k)
	}
	if err := s.WouldKeep(k); err != nil {
		return run.Reply{}, err
	}
	s.Tell("brineyard journal import: %d rows of %s would be added to %s", len(rows.Entries), words.Quoted(q.file), words.Quoted(s.JournalPath()))
	return run.Reply{}, nil
}

// read makes entries of the file's rows.
func (q *importing) read(s *run.Session) (sheet.Rows, error) {
	file, err := s.Env.Open(q.file)
	if err != nil {
		return sheet.Rows{}, fault.Refuse("%s: cannot be read: %s; allowed: a CSV file", words.Quoted(q.file), run.Reason(err))
	}
	defer file.Close()
	rows, err := sheet.Read(file, q.mapping, sheet.Options{Dates: q.dates, Zone: s.Env.Now().Location()})
	switch {
	case err != nil:
		return rows, fault.Refuse("%s: %v", words.Quoted(q.file), err)
	case len(rows.Faults) > 0: // with what the yard file says of the other rows
		desk := s.Desk(q.Writing)
		desk.Old = true
		return rows, q.faulty(append(rows.Faults, lined(desk.Fits(rows.Entries), rows.Lines)...))
	case len(rows.Entries) == 0:
		return rows, fault.Refuse("%s: no rows below its headings; allowed: one or more", words.Quoted(q.file))
	}
	return rows, nil
}

// lined puts reasons against entries at the lines of their rows.
func lined(refused []enter.Refusal, lines []int) []journal.Fault {
	var faults []journal.Fault
	for _, r := range refused {
		faults = append(faults, journal.Fault{Line: lines[r.Entry], Text: r.Error()})
	}
	return faults
}

// mostFaults is how many are listed: what is wrong with more is seen in those.
const mostFaults = 100

// faulty shows the faults of the file.
func (q *importing) faulty(faults []journal.Fault) error {
	slices.SortStableFunc(faults, func(a, b journal.Fault) int { return a.Line - b.Line })
	var list run.FaultList
	for i, f := range faults {
		if i == mostFaults {
			list = append(list, fmt.Errorf("%s: and %d faults more; nothing was added", q.file, len(faults)-i))
			break
		}
		list = append(list, fmt.Errorf("%s: %s", q.file, f))
	}
	return list
}
