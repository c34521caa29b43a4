package records

import (
	"errors"
	"fmt"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"
)

var yardCommand = run.Command{
	Use:   "yard",
	Short: "Write, check and show the yard file",
	Long: "The yard file holds what a yard has and how it works. What stands there need\n" +
		"not be typed each time.",
	Example: "  brineyard yard init\n  brineyard yard check\n  brineyard yard show",
	Below:   []run.Command{yardInitCommand, yardCheckCommand, yardShowCommand, yardDrawCommand, yardNowCommand},
}

var yardInitCommand = run.Command{
	Use:   "init [FILE]",
	Short: "Write a complete yard file to start from, with every key explained",
	Long: "init writes a whole yard file that works, " + run.DefaultYard + " unless named. Every key\n" +
		"is explained in it. It never overwrites a file.",
	Example: "  brineyard yard init\n  brineyard yard init north.toml",
	Args:    run.OneFile,
	New:     func() run.Question { return &yardInit{} },
	// A yard file with faults is no hindrance to another one.
	Open: func(env *run.Env, g *run.Globals, _ []string) (*run.Session, error) {
		return &run.Session{Env: env, Globals: g}, nil
	},
	NoWorking: "No working: a file is written, nothing is worked out.",
}

type yardInit struct{ file []string }

// Bind binds the file, if one is named.
func (q *yardInit) Bind(b *bind.Set) {
	b.Then(func(s *bind.Scope) error { q.file = s.Args; return nil })
}

// Answer creates the file, and leaves nothing behind when that fails.
func (q *yardInit) Answer(s *run.Session) (run.Reply, error) {
	path := run.DefaultYard
	switch {
	case len(q.file) == 1:
		path = q.file[0]
	case s.Globals.NamesYard():
		path = s.Globals.YardPath
	}
	if err := s.Env.CreateNew("", path, file.Example); err != nil {
		return run.Reply{}, err
	}
	_, err := fmt.Fprintf(s.Env.Err, "brineyard yard init: wrote %s; put your own yard's numbers in it\n", words.Quoted(path))
	return run.Reply{}, err
}

var yardCheckCommand = run.Command{
	Use:   "check [FILE]",
	Short: "Report everything that is wrong in the yard file",
	Long: "check reads the yard file and lists every fault at once. Each comes with its\n" +
		"line and column. It asks about values that hardly any yard has.",
	Example:   "  brineyard yard check\n  brineyard yard check north.toml",
	Args:      run.OneFile,
	New:       func() run.Question { return &yardCheck{} },
	Open:      openToCheck,
	NoWorking: "No working: a file is read and counted, nothing is worked out.",
}

// openToCheck opens the file that is to be checked, and shows all its faults.
func openToCheck(env *run.Env, g *run.Globals, args []string) (*run.Session, error) {
	if len(args) == 1 {
		if err := g.UseYard(args[0]); err != nil {
			return nil, err
		}
	}
	s, err := run.Open(env, g)
	var faults file.Faults
	if errors.As(err, &faults) {
		return nil, run.EachFault(faults)
	}
	return s, err
}

type yardCheck struct{}

// Bind asks for a yard file.
func (*yardCheck) Bind(b *bind.Set) { b.Then(needsYard) }

// needsYard refuses to go on without a yard file.
func needsYard(s *bind.Scope) error {
	if s.Yard == nil {
		return fault.Refuse("no yard file; allowed: %s in the folder, --yard, or $%s", run.DefaultYard, run.YardEnv)
	}
	return nil
}

// Answer counts what the file has: faults end the command before.
func (*yardCheck) Answer(s *run.Session) (run.Reply, error) {
	return run.Reply{
		Figures: yardCheckFigures(s.View, s.Yard),
		Words: func(d *report.Document) {
			d.Title, d.Verdict = "Yard file", fmt.Sprintf("%s: nothing wrong found.", s.Yard.Path)
			if n := len(s.Yard.Questions()); n > 0 {
				d.Verdict = fmt.Sprintf("%s: nothing wrong found, but look at %s that hardly any yard has.", s.Yard.Path, show.Plural(n, "value", "values"))
			}
			exposed := show.ExposureNotes(s.Yard.Plumbing)
			if len(exposed) > 0 {
				d.Verdict = fmt.Sprintf("%s: brine can come to the fresh water: see to that first.", s.Yard.Path)
				d.Cautions = []string{show.CautionBackflow, show.CautionLocal}
			}
			d.Notes = append(exposed, questionNotes(s.View, s.Yard)...)
		},
	}, nil
}

// questionNotes ask about values that hardly any yard has.
func questionNotes(v show.View, y *yard.Yard) []string {
	var notes []string
	for _, q := range y.Questions() {
		notes = append(notes, v.Say("%s: %s is %v; usually %v to %v. Is its unit right?", q.Where, q.Key, q.Value, q.Low, q.High))
	}
	return notes
}

func yardCheckFigures(v show.View, y *yard.Yard) []report.Figure {
	return []report.Figure{
		show.Quiet(v.Figure("exposures", "Links that let brine come to the fresh water", quantity.Count(len(lineup.Exposures(y.Plumbing))))),
		show.Quiet(v.Figure("questions", "Values to look at", quantity.Count(len(y.Questions())))),
		v.Figure("tanks", "Tanks", quantity.Count(len(y.Tanks))),
		v.Figure("liquids", "Liquids", quantity.Count(len(y.Liquids))),
		v.Figure("trucks", "Trucks", quantity.Count(len(y.Trucks))),
		v.Figure("routes", "Routes", quantity.Count(len(y.Routes))),
		v.Figure("links", "Lines and valves", quantity.Count(len(y.Plumbing.Links))),
	}
}
