package cli

import (
	"bytes"
	"errors"
	"slices"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// asker asks one command over and over, each time with other words.
type asker struct {
	session  run.Session
	question run.Question
	bound    *bind.Set
	flags    *pflag.FlagSet
	values   []*pflag.Flag // of the columns; nil for others
	known    map[string]*asked
	key      []byte
	hits     int   // since known was empty
	scratch  asked // the answer to the last row
}

// asked is the answer written behind a row: cells of the figures and of the failure.
type asked struct {
	cells   []byte
	failure bool
	lost    []string // figures that have no column
}

// mostKnown bounds how many answers are remembered. Logs repeat themselves: readings to a
// tenth, whole degrees.
const mostKnown = 1 << 13

func newAsker(s *run.Session, command run.Command) *asker {
	a := &asker{session: *s, question: command.New(), flags: pflag.NewFlagSet(command.Name(), pflag.ContinueOnError), known: map[string]*asked{}}
	a.session.View.NumbersOnly = true
	a.bound = bind.New(a.flags)
	a.question.Bind(a.bound)
	return a
}

// names lists the flags that a row can have.
func (a *asker) names() []string {
	var names []string
	a.flags.VisitAll(func(f *pflag.Flag) {
		if !unfit[f.Name] && !ofRecord(a.flags, f.Name) {
			names = append(names, f.Name)
		}
	})
	return names
}

// use settles which flag each column is.
func (a *asker) use(columns []eachColumn) {
	for _, c := range columns {
		var f *pflag.Flag
		if c.flag != "" && c.flag != argsColumn {
			f = a.flags.Lookup(c.flag)
		}
		a.values = append(a.values, f)
	}
}

// ask answers a row; the answer holds until the next. One that is known is not worked out
// again.
func (a *asker) ask(e *eachRun, row []string) *asked {
	if a.known != nil {
		a.key = a.key[:0]
		for i, c := range e.columns {
			if c.flag != "" && i < len(row) {
				a.key = append(append(a.key, row[i]...), 0)
			}
		}
		if known, ok := a.known[string(a.key)]; ok {
			a.hits++
			return known
		}
	}
	out := &a.scratch
	out.cells, out.lost, out.failure = out.cells[:0], nil, false
	if figures, err := a.figures(e.columns, row); err != nil {
		out = a.failed(e, err)
	} else {
		out.fill(e, figures)
	}
	a.remember(out)
	return out
}

// remember keeps an answer, as long as answers come again often enough to be worth it.
func (a *asker) remember(out *asked) {
	if a.known == nil {
		return
	}
	if len(a.known) >= mostKnown {
		if a.hits < mostKnown/4 {
			a.known = nil // no two rows alike
			return
		}
		a.hits = 0
		clear(a.known)
	}
	kept := *out
	kept.cells = bytes.Clone(out.cells)
	a.known[string(a.key)] = &kept
}

// failed is the answer of a row that has none.
func (a *asker) failed(e *eachRun, err error) *asked {
	cells := bytes.Repeat([]byte{','}, len(e.figures))
	return &asked{cells: appendCells(cells, []string{words.OneLine(err.Error())}), failure: true}
}

// fill writes the figures into their columns.
func (o *asked) fill(e *eachRun, figures []report.Figure) {
	for i, c := range e.figures {
		at := i
		if at >= len(figures) || figures[at].Key != c.key {
			at = slices.IndexFunc(figures, func(f report.Figure) bool { return f.Key == c.key })
		}
		if at >= 0 {
			o.cells = appendValue(o.cells, figures[at].Value, c.unit)
		}
		o.cells = append(o.cells, ',')
	}
	if len(figures) <= len(e.figures) && len(figures) > 0 && figures[len(figures)-1].Key == e.figures[len(figures)-1].key {
		return
	}
	for _, f := range figures {
		if !slices.ContainsFunc(e.figures, func(c figureColumn) bool { return c.key == f.Key }) {
			o.lost = append(o.lost, f.Key)
		}
	}
}

func (a *asker) figures(columns []eachColumn, cells []string) ([]report.Figure, error) {
	var free []string
	for i, f := range a.values {
		if f != nil {
			reset(f)
		}
		if i >= len(cells) || cells[i] == "" || columns[i].flag == "" {
			continue
		}
		if f == nil {
			free = strings.Fields(cells[i])
			continue
		}
		cell := cells[i]
		if u := columns[i].unit; u != "" && bareNumber(cell) {
			cell += u
		}
		if err := f.Value.Set(cell); err != nil {
			return nil, fault.Refuse("%s %s: %v", columns[i].flag, words.Quoted(cells[i]), err)
		}
	}
	if err := a.bound.Fill(a.session.Scope(free)); err != nil {
		return nil, err
	}
	r, err := a.question.Answer(&a.session)
	if err != nil {
		return nil, a.bound.Explain(err, a.session.View.System)
	}
	return r.Figures, nil
}

// reset takes a flag back to what it was before it was given.
func reset(f *pflag.Flag) {
	v, ok := f.Value.(bind.Resettable)
	if !ok {
		panic(errors.New(f.Name + " cannot be reset")) // a kind of flag that has no reset yet
	}
	v.Reset()
}

// bareNumber tells whether a cell has no unit of its own.
func bareNumber(cell string) bool {
	last := cell[len(cell)-1]
	return last >= '0' && last <= '9' || last == '.'
}
