package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"

	"github.com/spf13/pflag"
)

// defaultYard is the yard file looked for in the folder, before the one that
// the environment names.
const (
	defaultYard = "yard.toml"
	yardEnv     = "BRINEYARD_FILE"
)

// globals are the flags that every command takes.
type globals struct {
	yard    text
	units   choice
	format  choice
	working bool
}

func (g *globals) add(f *pflag.FlagSet) {
	g.units.words = []string{quantity.US.String(), quantity.Metric.String()}
	g.format.words = nil
	for _, r := range report.Formats {
		g.format.words = append(g.format.words, r.Name)
	}
	g.format.value = g.format.words[0]
	f.Var(&g.yard, "yard", "yard `file` (default "+defaultYard+" in the folder, else $"+yardEnv+")")
	f.Var(&g.units, "units", "units of the answer: us or metric (default us, or the yard file's)")
	f.Var(&g.format, "format", "form of the answer: text, json, csv or markdown")
	f.BoolVar(&g.working, "working", false, "show the arithmetic, step by step")
}

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
	s := &setting{env: env, globals: g, origin: map[string]origin{}}
	if err := s.readYard(); err != nil {
		return nil, err
	}
	if s.yard != nil && s.yard.Units != nil {
		s.system = *s.yard.Units
	}
	if g.units.value != "" {
		s.system, _ = quantity.ParseSystem(g.units.value)
	}
	return s, nil
}

// readYard loads the file that was named, else the folder's, else the
// environment's, else none.
func (s *setting) readYard() error {
	var err error
	if s.globals.yard.given {
		s.yard, err = file.Load(s.env.Open, s.globals.yard.value)
		return err
	}
	f, err := s.env.Open(defaultYard)
	switch {
	case err == nil:
		f.Close()
		s.notes = append(s.notes, "Yard file "+defaultYard+", found in this folder.")
		s.yard, err = file.Load(s.env.Open, defaultYard)
		return err
	case !errors.Is(err, fs.ErrNotExist):
		s.yard, err = file.Load(s.env.Open, defaultYard)
		return err
	}
	if path := s.env.Getenv(yardEnv); path != "" {
		s.notes = append(s.notes, "Yard file "+path+", named by $"+yardEnv+".")
		s.yard, err = file.Load(s.env.Open, path)
		return err
	}
	return nil
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
	if !s.globals.working {
		d.Working = nil // of commands with so few steps that they are always made
	}
	for _, r := range report.Formats {
		if r.Name == s.globals.format.value {
			out := bufio.NewWriter(s.env.Out)
			if err := r.Draw(out, d); err != nil {
				return err
			}
			return out.Flush()
		}
	}
	return fmt.Errorf("no renderer for %q", s.globals.format.value)
}
