package cli

import (
	"fmt"
	"sort"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

// The commands about the journal's file: import and verify.

func newJournalImport(env *Env, g *globals) *cobra.Command {
	mapping, dry := &text{}, false
	var path *text
	cmd := &cobra.Command{
		Use:   "import FILE.csv",
		Short: "Take over a log that was kept in a spreadsheet",
		Long: "import reads a CSV file with headings of its own and adds its rows to the\n" +
			"journal: all of them, or none if any has a fault. The map says which column is\n" +
			"which; two equal signs give every row the same word, and a colon a unit.",
		Example: "  brineyard journal import old.csv --map time=Date,volume=Made:gal,kind==batch\n" +
			"  brineyard journal import old.csv --map time=Date,note=What,kind==note",
		Args: oneWord("the CSV file to import"),
		RunE: func(_ *cobra.Command, args []string) error {
			return runImport(env, g, args[0], mapping, path, dry)
		},
	}
	f := cmd.Flags()
	f.Var(mapping, "map", "`columns`: time=Date,volume=Made:gal,kind==batch,...; required")
	f.BoolVar(&dry, "dry-run", false, "say what would be added, and add nothing")
	path = journalFlag(f)
	return cmd
}

// oneWord takes exactly one word, and says what it is.
func oneWord(what string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return usagef("%d words; allowed: one, %s", len(args), what)
		}
		return nil
	}
}

func runImport(env *Env, g *globals, name string, mapping, path *text, dry bool) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	if !mapping.given {
		return usagef("--map is missing: which column is which? allowed: like --map time=Date,volume=Made:gal,kind==batch,tank==mixer")
	}
	m, err := journal.ParseMapping(mapping.value)
	if err != nil {
		return usagef("--map: %v", err)
	}
	file, err := env.Open(name)
	if err != nil {
		return usagef("%s: cannot be read: %s; allowed: a CSV file", words.Quoted(name), reasonOf(err))
	}
	defer file.Close()
	entries, faults, err := journal.Import(file, m, env.Now().Location())
	if err != nil {
		return usagef("%s: %v", words.Quoted(name), err)
	}
	for i := range entries {
		if e := &entries[i]; s.toCome(e.Time) {
			faults = append(faults, journal.Fault{Line: i + 2, Text: e.Time.Format(timeLayouts[1]) + " is to come; allowed: up to now"})
		}
		if s.yard == nil {
			continue
		}
		if err := s.knownNames(&entries[i]); err != nil {
			faults = append(faults, journal.Fault{Line: i + 2, Text: err.Error()})
		}
	}
	if len(faults) > 0 {
		return rowFaults(name, faults)
	}
	if len(entries) == 0 {
		return usagef("%s: no rows below its headings; allowed: one or more", words.Quoted(name))
	}
	if dry {
		s.tell("brineyard journal import: %d rows of %s would be added to %s", len(entries), words.Quoted(name), words.Quoted(s.journalPath(path)))
		return nil
	}
	return s.keep(s.journalPath(path), "journal import", entries...)
}

// rowFaults are faults of a file, a line each.
func rowFaults(name string, faults []journal.Fault) error {
	var list faultList
	for _, f := range faults {
		list = append(list, fmt.Errorf("%s: %s", name, f))
	}
	return list
}

func newJournalVerify(env *Env, g *globals) *cobra.Command {
	return ofJournal(env, g, &cobra.Command{
		Use:   "verify",
		Short: "Go through the whole file and say what is wrong with it",
		Long: "verify reads every row and its check, and lists what is damaged, changed outside\n" +
			"the program, missing or out of order. Nothing is changed.",
		Example: "  brineyard journal verify\n  brineyard journal verify --journal second.csv",
	}, func(s *setting, file string) error {
		a, err := journal.Verify(file)
		if err != nil {
			return journalError(err)
		}
		if err := s.write(auditDocument(file, a)); err != nil {
			return err
		}
		if !a.Sound() {
			return run.ErrUnsound
		}
		return nil
	})
}

func auditDocument(path string, a *journal.Audit) *report.Document {
	d := &report.Document{
		Command: "journal verify", Title: "Journal, gone through",
		Verdict: fmt.Sprintf("%s is sound: %d entries, every one whole.", path, len(a.Entries)),
		Figures: []report.Figure{{Key: "entries", Label: "Entries", Value: numberValue(len(a.Entries))}},
	}
	if !a.Sound() {
		d.Verdict = fmt.Sprintf("%s needs a look: %s.", path, strings.Join(unsound(a), ", "))
	}
	if len(a.Entries) > 0 {
		d.Figures = append(d.Figures,
			report.Figure{Key: "first", Label: "First", Value: report.Word(a.First.Format(timeLayouts[0]))},
			report.Figure{Key: "last", Label: "Last", Value: report.Word(a.Last.Format(timeLayouts[0]))})
	}
	kinds := report.Table{Key: "kinds", Title: "Kinds", Columns: []report.Column{{Key: "kind", Label: "Kind"}, {Key: "entries", Label: "Entries"}}}
	for k, n := range a.Kinds {
		kinds.Rows = append(kinds.Rows, []report.Value{report.Word(string(k)), numberValue(n)})
	}
	sort.Slice(kinds.Rows, func(i, j int) bool { return kinds.Rows[i][0].Word < kinds.Rows[j][0].Word })
	faults := report.Table{Key: "faults", Title: "What is wrong", Columns: []report.Column{
		{Key: "line", Label: "Line"}, {Key: "what", Label: "What"},
	}}
	for _, f := range append(append([]journal.Fault(nil), a.Faults...), a.Dangling...) {
		faults.Rows = append(faults.Rows, []report.Value{numberValue(f.Line), report.Word(f.Text)})
	}
	for _, t := range []report.Table{kinds, faults} {
		if len(t.Rows) > 0 {
			d.Tables = append(d.Tables, t)
		}
	}
	for _, f := range a.Backwards {
		d.Notes = append(d.Notes, f.String())
	}
	return d
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
		switch {
		case p.n == 1:
			parts = append(parts, "1 "+p.one)
		case p.n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", p.n, p.many))
		}
	}
	return parts
}
