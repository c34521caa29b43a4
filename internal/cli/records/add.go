package records

import (
	"slices"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/enter"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

var addCommand = run.Command{
	Use:   "add KIND",
	Short: "Record an event",
	Long: "add writes one row of a kind, those below. When it returns without an error, the\n" +
		"row is on the disk. An entry that the others contradict is refused with the\n" +
		"reason. --as-seen writes it all the same.",
	Example: addExamples(journal.Batch, journal.Load),
	Args:    noOtherKind,
	Below:   addCommands(),
}

// addExamples are the first examples of some kinds.
func addExamples(some ...journal.Kind) string {
	var lines []string
	for _, kind := range some {
		for _, k := range entryKinds {
			if k.name == kind {
				lines = append(lines, "  "+k.line(k.example))
			}
		}
	}
	return strings.Join(lines, "\n")
}

// noOtherKind refuses a kind that is no subcommand of add.
func noOtherKind(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, k := range entryKinds {
		names = append(names, string(k.name))
	}
	return fault.Refuse("no such kind of entry: %s; %s", words.Quoted(args[0]), words.Allowed(args[0], names))
}

// addCommands make a command of each kind.
func addCommands() []run.Command {
	var all []run.Command
	for _, k := range entryKinds {
		all = append(all, run.Command{
			Use:   string(k.name),
			Short: k.short,
			Long: k.short + ".\nNames are those of the yard file, if there is one; their beginning will do.\n" +
				"The row is on the disk when this returns without an error.",
			Example:   "  " + k.line(k.example) + "\n  " + k.line(k.another),
			Args:      run.NoArguments,
			New:       func() run.Question { return &addition{kind: k, entry: journal.Entry{Kind: k.name}} },
			NoWorking: "No working: an entry is only written down.",
		})
	}
	return all
}

// addition is an entry as it is typed.
type addition struct {
	kind   entryKind
	entry  journal.Entry
	sample *brine.Sample // nil unless the kind has one
	at     string
	run.Writing
}

// Bind binds what the kind takes, and what every kind takes.
func (q *addition) Bind(b *bind.Set) {
	b.Then(q.hasAll(b))
	at := bind.Name(b, &q.at, "at", bind.AtHelp, nil)
	b.Then(func(s *bind.Scope) (err error) {
		q.entry.Time = s.Now()
		if at.Given() {
			q.entry.Time, err = bind.At(s, "at", q.at)
		}
		return err
	})
	q.Writing.Bind(b)
	if slices.Contains(q.kind.needs, "to") {
		b.Flags().SetNormalizeFunc(intoTank)
	}
	for _, takes := range append(q.kind.takes[:len(q.kind.takes):len(q.kind.takes)], operatorFlag, noteFlag) {
		takes(q, b)
	}
}

// intoTank lets --tank name, as it does of other entries, the tank that something went into.
func intoTank(_ *pflag.FlagSet, name string) pflag.NormalizedName {
	if name == "tank" {
		name = "to"
	}
	return pflag.NormalizedName(name)
}

// hasAll refuses an entry without a value that its kind needs.
func (q *addition) hasAll(b *bind.Set) func(*bind.Scope) error {
	return func(*bind.Scope) error {
		for _, name := range q.kind.needs {
			if !b.Flags().Changed(name) {
				return fault.Refuse("--%s is missing, and the entry (%s) needs it; allowed: like %s", name, q.kind.name, q.kind.line(q.kind.example))
			}
		}
		return nil
	}
}

// Answer adds the row.
func (q *addition) Answer(s *run.Session) (run.Reply, error) {
	e := q.entry
	if refused := s.Desk(q.Writing).Names(&e); refused != nil {
		return run.Reply{}, q.refuse([]enter.Refusal{*refused})
	}
	takeLiquid(s.Yard, &e)
	if q.sample != nil {
		r, err := brine.Reading(*q.sample)
		if err != nil {
			return run.Reply{}, err
		}
		read := run.ReadingEntry(e.Tank, r)
		e.Scale, e.Reading, e.Temp, e.NaCl = read.Scale, read.Reading, read.Temp, read.NaCl
	}
	if err := e.Check(); err != nil {
		return run.Reply{}, fault.Refuse("%v", err)
	}
	return run.Reply{}, s.Keep(run.Keeping{Writing: q.Writing, Command: "journal add", Entries: []journal.Entry{e}, Refuse: q.refuse})
}

// refuse names the flag of the kind that holds the tank: --to, where something went into it.
func (q *addition) refuse(refused []enter.Refusal) error {
	if slices.Contains(q.kind.needs, "to") && refused[0].Field == "tank" {
		refused[0].Field = "to"
	}
	return run.Typed(refused)
}

// takeLiquid takes over what the yard file says of a liquid, so that the row stands on its
// own. What comes out of a tank is what stands in it, and an order is not there yet.
func takeLiquid(y *yard.Yard, e *journal.Entry) {
	if y == nil || e.From != "" || e.Kind == journal.Load || e.Kind == journal.Order {
		return
	}
	l, known := y.Liquid(e.Liquid)
	if known && len(l.Products) == 0 && e.NaCl == nil && e.CaCl2 == nil && e.MgCl2 == nil && e.KCl == nil {
		run.CompositionInto(e, l.Liquid)
	}
}
