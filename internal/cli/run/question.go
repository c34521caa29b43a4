package run

import (
	"errors"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
)

// Question is what a command asks: the values of its request, and the answer to them. A
// command line asks once; each asks for every row of a table.
type Question interface {
	Bind(*bind.Set)
	Answer(*Session) (Reply, error)
}

// Reply is the answer, and what to do with it.
type Reply struct {
	Figures []report.Figure
	// Words puts the words around the figures: title, verdict, tables, notes. It is not
	// called where numbers alone are wanted; nil where the answer was shown already.
	Words func(*report.Document)
	// Working is its arithmetic, for --working; nil for a command without.
	Working func() []report.Step
	// Record and Entries are for --record; nil for commands without it.
	Record  *Record
	Entries []journal.Entry
	End     error // once it has been shown
}

// Command is a command of the program.
type Command struct {
	Use, Short, Long, Example string
	Args                      cobra.PositionalArgs // nil for any
	New                       func() Question      // nil for one that only has commands below it
	Below                     []Command
	Rows                      bool // each can ask it of every row
	// Screen commands show on a screen what is acted on, and the rest with --all.
	Screen bool
	// NoWorking says why there is no working, where one was asked for and an answer has none.
	NoWorking string
	// Open settles what holds for an answer; nil for the yard file and the units in force.
	Open func(*Env, *Globals, []string) (*Session, error)
}

// Name is the word that runs it.
func (c Command) Name() string {
	name, _, _ := strings.Cut(c.Use, " ")
	return name
}

// Cobra makes the command, and those below it. Words is what the program calls it in full,
// like journal list.
func (c Command) Cobra(env *Env, g *Globals) *cobra.Command { return c.cobra(env, g, "") }

func (c Command) cobra(env *Env, g *Globals, above string) *cobra.Command {
	cmd := &cobra.Command{Use: c.Use, Short: c.Short, Long: c.Long, Example: c.Example, Args: c.Args}
	path := above + c.Name()
	for _, below := range c.Below {
		cmd.AddCommand(below.cobra(env, g, path+" "))
	}
	if c.New == nil {
		if cmd.Args == nil {
			cmd.Args = subcommand
		}
		cmd.RunE = func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
		return cmd
	}
	q := c.New()
	b := bind.New(cmd.Flags())
	q.Bind(b)
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		s, err := c.open(env, g, args)
		if err != nil {
			return err
		}
		return s.ask(c, q, b, path, args)
	}
	return cmd
}

func (c Command) open(env *Env, g *Globals, args []string) (*Session, error) {
	if c.Open == nil {
		return Open(env, g)
	}
	return c.Open(env, g, args)
}

// ask answers one command line.
func (s *Session) ask(c Command, q Question, b *bind.Set, path string, args []string) (err error) {
	defer func() {
		if e := s.closeJournals(); err == nil {
			err = e
		}
	}()
	s.View.Short = c.Screen && s.Globals.brevity()
	scope, err := s.fill(b, path, args)
	if err != nil {
		return err
	}
	s.notes = append(s.notes, scope.Notes...)
	r, err := q.Answer(s)
	if err != nil {
		return b.Explain(err, s.View.System)
	}
	if r.Record != nil {
		if err := s.record(r.Record, path, r.Entries); err != nil {
			return err
		}
	}
	if err := s.draw(c, path, r); err != nil {
		return err
	}
	return r.End
}

// draw puts the words around the figures and shows them. Where the answer was shown already,
// only a missing working is left to tell of.
func (s *Session) draw(c Command, path string, r Reply) error {
	if r.Words == nil {
		if s.Globals.Working && c.NoWorking != "" {
			s.Tell("brineyard %s: %s", path, c.NoWorking)
		}
		return nil
	}
	d := &report.Document{Command: path, Figures: r.Figures, Short: s.View.Short}
	r.Words(d)
	if s.Globals.Working {
		if r.Working != nil {
			d.Working = r.Working()
		}
		if len(d.Working) == 0 && c.NoWorking != "" {
			d.Doubts = append([]string{c.NoWorking}, d.Doubts...)
		}
	}
	return s.Write(d)
}

// subcommand refuses a word behind a command that has commands of its own.
func subcommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return fault.Refuse("no such command of %s: %s; %s", cmd.Name(), words.Quoted(args[0]), words.Allowed(args[0], Available(cmd)))
}

// Available are the commands below a command.
func Available(cmd *cobra.Command) []string {
	var names []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			names = append(names, c.Name())
		}
	}
	return names
}

// NoArguments refuses words that are no flags.
func NoArguments(_ *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fault.Refuse("unexpected word %s; every value comes with a flag, like --temp 41F", words.Quoted(args[0]))
	}
	return nil
}

// OneFile takes at most one file name.
func OneFile(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fault.Refuse("unexpected word %s; allowed: one file", words.Quoted(args[1]))
	}
	return nil
}

// ErrHold ends check --gate on a tank that is not to be pumped, ErrUnsound a journal verify
// that found something. Both were answered, and say no more.
var (
	ErrHold    = errors.New("not to be pumped")
	ErrUnsound = errors.New("not sound")
)

// FaultList is an error that is shown with a line for each fault of a file.
type FaultList []error

// Error joins the lines.
func (f FaultList) Error() string { return errors.Join(f...).Error() }
