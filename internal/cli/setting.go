package cli

import (
	"bufio"
	"fmt"
	"slices"

	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// setting is what holds for one run: yard file, units, and where each value of
// the request came from.
type setting struct {
	env     *Env
	globals *globals
	yard    *yard.Yard // nil when there is none
	system  quantity.System
	origin  map[string]origin // field of a request: the place to name in an error
	notes   []string
	// bare is set where only numbers are wanted, many times over: words are left out.
	bare bool
}

// newSetting reads the yard file and settles the units.
func newSetting(env *Env, g *globals) (*setting, error) {
	o, err := run.Open(env, g)
	if err != nil {
		return nil, err
	}
	return &setting{env: env, globals: g, yard: o.Yard, system: o.View.System, notes: o.Notes(), origin: map[string]origin{}}, nil
}

// take settles one value of a request: the flag's, else the yard file's (nil
// when it says nothing), else a default. It notes where it came from.
func take[Q quantity.Quantity](s *setting, field, flagName string, in *input[Q], file *Q, fileKey string, otherwise Q) Q {
	switch {
	case in.given:
		s.given(field, flagName, in.text, in.bare, in.value)
		return in.value
	case file != nil:
		s.origin[field] = origin{path: s.yard.Path, key: fileKey, value: *file}
		return *file
	}
	if otherwise.In(s.system).Value == 0 {
		s.origin[field] = said("--" + flagName) // nothing was given, and nothing is taken
		return otherwise
	}
	s.origin[field] = origin{flag: flagName, value: otherwise}
	return otherwise
}

// given notes a flag that was used. A metric user who leaves the unit out is
// told which one was taken, since the help names US units.
func (s *setting) given(field, flagName, text string, bare bool, q quantity.Quantity) {
	s.origin[field] = origin{flag: flagName, text: text}
	us := q.In(quantity.US)
	odd := false // for what the bare number was read as
	switch q := q.(type) {
	case quantity.Temperature:
		odd = q < quantity.Fahrenheit(20)
	case quantity.Strength:
		odd = q > 0 && q < 0.01
	}
	if bare && (odd || s.system == quantity.Metric && us.Unit != q.In(quantity.Metric).Unit) {
		s.notes = append(s.notes, fmt.Sprintf("--%s %s has no unit and was read as %v: write the unit if that is not meant.", flagName, words.Quoted(text), us))
	}
}

// write draws the document in the form asked for.
func (s *setting) write(d *report.Document) error {
	// How the question was read comes before what is said of the answer.
	d.Notes = append(slices.Clone(s.notes), d.Notes...)
	if !s.globals.Working {
		d.Working = nil // of commands with so few steps that they are always made
	}
	out := bufio.NewWriter(s.env.Out)
	if err := s.globals.Format.Draw(out, d); err != nil {
		return err
	}
	return out.Flush()
}

// view is the setting's, as the new pieces take it.
func (s *setting) view() show.View { return show.View{System: s.system, NumbersOnly: s.bare} }
