package run

import (
	"bufio"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sync"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/show"
	"brineyard/internal/journal/disk"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"

	"github.com/spf13/pflag"
)

// DefaultYard is the yard file looked for in the folder, before the one that YardEnv names.
const (
	DefaultYard = "yard.toml"
	YardEnv     = "BRINEYARD_FILE"
)

// Globals are the flags that every command takes.
type Globals struct {
	YardPath    string
	JournalPath string
	Format      report.Format
	Working     bool
	All         bool // the whole answer, where a screen shows what is acted on
	Brief       bool // one sentence
	yard        *bind.Text
	journal     *bind.Text
	units       *quantity.System // nil unless typed
}

// Bind binds them.
func (g *Globals) Bind(flags *pflag.FlagSet) {
	b := bind.New(flags)
	g.yard = bind.Name(b, &g.YardPath, "yard", "yard `file` (default "+DefaultYard+" in the folder, else $"+YardEnv+")", nil)
	g.journal = bind.Name(b, &g.JournalPath, "journal", "journal `file` (default $"+JournalEnv+", else "+DefaultJournal+" beside the yard file)", nil)
	us, metric := quantity.US, quantity.Metric
	bind.OneOf(b, &g.units, "units", "units of the answer: us or metric (default us, or the yard file's)", "",
		bind.Option[*quantity.System]{Word: us.String(), Means: &us}, bind.Option[*quantity.System]{Word: metric.String(), Means: &metric})
	var formats []bind.Option[report.Format]
	for _, f := range report.Formats() {
		formats = append(formats, bind.Option[report.Format]{Word: f.Name, Means: f})
	}
	bind.OneOf(b, &g.Format, "format", "form of the answer: text, json, csv or markdown", formats[0].Word, formats...)
	bind.Switch(b, &g.All, "all", "show every figure, note and caution")
	bind.Switch(b, &g.Brief, "brief", "answer in one sentence, as for a text message")
	bind.Switch(b, &g.Working, "working", "show the arithmetic, step by step")
}

// brevity reports whether a person reads the answer, who did not ask for all of it.
func (g *Globals) brevity() bool { return !g.All && g.Format.Name == report.Formats()[0].Name }

// NamesYard reports whether a yard file was named.
func (g *Globals) NamesYard() bool { return g.yard.Given() }

// UseYard takes a yard file as if its flag had named it.
func (g *Globals) UseYard(path string) error { return g.yard.Set(path) }

// Session is what holds for one answer.
type Session struct {
	Env     *Env
	Globals *Globals
	Yard    *yard.Yard // nil when there is none
	View    show.View
	notes   []string // how the question was read
	asked   string   // the whole command line, where part of it was left out
	found   string   // the yard file that nobody named; empty for none
	// foundHere tells that it is the folder's own.
	foundHere bool
	stands    func() (*yard.Yard, error)
	logs      []*disk.Log // that were opened
}

// Open settles the zone and the units, and reads the yard file. Errors: a zone that is not there,
// file.Faults.
func Open(env *Env, g *Globals) (*Session, error) {
	s := &Session{Env: env, Globals: g}
	if err := env.settleZone(); err != nil {
		return nil, err
	}
	s.stands = sync.OnceValues(s.readStanding)
	if err := s.readYard(); err != nil {
		return nil, err
	}
	if s.Yard != nil && s.Yard.Units != nil {
		s.View.System = *s.Yard.Units
	}
	if g.units != nil {
		s.View.System = *g.units
	}
	return s, nil
}

// readYard loads the file that was named, else the folder's, else the environment's, else
// none.
func (s *Session) readYard() error {
	if s.Globals.NamesYard() {
		return s.load(s.Globals.YardPath)
	}
	f, err := s.Env.Open(DefaultYard)
	if err == nil {
		f.Close()
		s.found, s.foundHere = "Yard file "+DefaultYard+", found in this folder.", true
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return s.load(DefaultYard)
	}
	if path := s.Env.Getenv(YardEnv); path != "" {
		s.found = "Yard file " + path + ", named by $" + YardEnv + "."
		return s.load(path)
	}
	return nil
}

func (s *Session) load(path string) (err error) {
	s.Yard, err = file.Load(s.Env.Open, path)
	return err
}

// Notes are those so far.
func (s *Session) Notes() []string { return s.notes }

// Note adds to what is said before the notes of the answer.
func (s *Session) Note(text string) { s.notes = append(s.notes, text) }

// Scope is what a question's values are taken from.
func (s *Session) Scope(args []string) *bind.Scope {
	return &bind.Scope{Yard: s.Yard, Stands: s.Standing, System: s.View.System, Now: s.Env.Now, Open: s.Env.Open, Args: args, Quiet: s.View.NumbersOnly}
}

// chartColumns are those below which a window breaks the lines of a chart, so that nothing is left to
// see in it.
const chartColumns = 60

// Write draws the document in the form asked for.
func (s *Session) Write(d *report.Document) error {
	// How the question was read comes before what is said of the answer.
	d.Notes = append(slices.Clone(s.notes), d.Notes...)
	if s.found != "" && !(s.foundHere && s.Globals.brevity()) { // which is nothing new at the tank
		d.Notes = append(d.Notes, s.found)
	}
	d.Asked = s.asked
	if s.Globals.brevity() {
		// Help, card and documents say it, and so does --all.
		d.Cautions = slices.DeleteFunc(slices.Clone(d.Cautions), func(c string) bool { return c == show.CautionLocal })
	}
	if wide, known := s.Env.columns(); known && wide < chartColumns {
		d.Charts, d.Drawings = nil, nil // the tables hold their numbers
	}
	draw := s.Globals.Format.Draw
	if s.Globals.Brief {
		draw = report.Brief
	}
	out := bufio.NewWriter(s.Env.Out)
	if err := draw(out, d); err != nil {
		return err
	}
	return out.Flush()
}

// Tell writes a line to the error stream.
func (s *Session) Tell(format string, args ...any) {
	fmt.Fprintln(s.Env.Err, words.OneLine(fmt.Sprintf(format, args...)))
}
