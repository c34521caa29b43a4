package cli

import (
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/report"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// question is what a command asks: its flags, and the answer to what they hold. A
// command line asks once; each asks for every row of a table.
type question interface {
	flags(*pflag.FlagSet)
	ask(s *setting, args []string) (reply, error)
}

// reply is a document, and what is to be done with it.
type reply struct {
	document *report.Document
	// record and entries are for --record; nil for commands without it.
	record  *recordFlags
	entries []journal.Entry
	end     error // once it has been shown
}

// shown is a reply that is only shown.
func shown(d *report.Document, err error) (reply, error) { return reply{document: d}, err }

// asking makes a command of a question.
func asking(env *Env, g *globals, cmd *cobra.Command, q question) *cobra.Command {
	q.flags(cmd.Flags())
	cmd.RunE = func(_ *cobra.Command, args []string) error {
		s, err := newSetting(env, g)
		if err != nil {
			return err
		}
		a, err := q.ask(s, args)
		if err != nil {
			return err
		}
		if a.record != nil {
			if err := s.record(a.record, cmd.Name(), a.entries...); err != nil {
				return err
			}
		}
		if err := s.write(a.document); err != nil {
			return err
		}
		return a.end
	}
	return cmd
}

// questions are those that each can ask, by the names of their commands.
func questions() map[string]func() run.Question {
	all := map[string]func() run.Question{}
	for _, c := range grouped() {
		if c.Rows {
			all[c.Name()] = c.New
		}
	}
	for name, make := range oldQuestions {
		all[name] = func() run.Question { return &adapted{question: make()} }
	}
	return all
}

// adapted asks a question of the first kind.
type adapted struct {
	question
	args []string
}

func (a *adapted) Bind(b *bind.Set) {
	a.flags(b.Flags())
	b.Then(func(s *bind.Scope) error { a.args = s.Args; return nil })
}

func (a *adapted) Answer(s *run.Session) (run.Reply, error) {
	old := &setting{env: s.Env, globals: s.Globals, yard: s.Yard, system: s.View.System, bare: true, origin: map[string]origin{}}
	r, err := a.ask(old, a.args)
	if err != nil {
		return run.Reply{}, err
	}
	return run.Reply{Figures: r.document.Figures}, nil
}

var oldQuestions = map[string]func() question{
	"store":  func() question { return &storeOptions{} },
	"truck":  func() question { return &truckOptions{} },
	"lineup": func() question { return &lineupOptions{} },
}

// view is the setting's, as the new pieces take it.
func (s *setting) view() show.View { return show.View{System: s.system, NumbersOnly: s.bare} }
