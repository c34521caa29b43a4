package cli

import (
	"fmt"
	"io"
	"runtime"
	"runtime/debug"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// eachCommand asks another command of every row.
func eachCommand(rows askable) run.Command {
	names := rows.names()
	return run.Command{
		Use:   "each COMMAND [FILE.csv]",
		Short: "Run one command over the rows of a CSV file",
		Long: "each asks a command once for every row. Columns are the command's flags by name.\n" +
			"Units stand in the cells or in the heading, like \"volume [gal]\". A column \"args\"\n" +
			"holds what stands without a flag. Other columns are taken along. The output is\n" +
			"the input with a column for each figure. A column \"error\" names a row's fault.\n" +
			"Commands: " + strings.Join(names[:5], ", ") + ",\n" + strings.Join(names[5:], ", ") + ".",
		Example: "  brineyard each reading samples.csv\n" +
			"  brineyard each correct tanks.csv --yard yard.toml",
		Args:      rows.commandAndFile,
		Open:      openEach,
		New:       func() run.Question { return &each{rows: rows} },
		NoWorking: "No working: rows hold figures alone; ask the command itself.",
	}
}

// openEach refuses another form before it opens anything.
func openEach(env *run.Env, g *run.Globals, _ []string) (*run.Session, error) {
	if f := g.Format.Name; f != report.Formats()[0].Name && f != "csv" {
		return nil, fault.Refuse("--format %s: rows come out as CSV; allowed: csv", f)
	}
	return run.Open(env, g)
}

// each is the question of a whole table.
type each struct {
	rows  askable
	words []string
	jobs  int
}

// Bind binds the command's name, the file and the jobs.
func (q *each) Bind(b *bind.Set) {
	bind.Count(b, &q.jobs, "jobs", "rows worked on at once; as many as processors unless given", "whole number of them")
	b.Then(func(s *bind.Scope) error { q.words = s.Args; return nil })
}

// commandAndFile takes a command's name and at most one file.
func (a askable) commandAndFile(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return fault.Refuse("which command? allowed: %s", strings.Join(a.names(), ", "))
	}
	if _, ok := a.named(args[0]); !ok {
		return fault.Refuse("%s: not a command to ask for each row; %s", words.Quoted(args[0]), words.Allowed(args[0], a.names()))
	}
	if len(args) > 2 {
		return fault.Refuse("unexpected word %s; allowed: one file", words.Quoted(args[2]))
	}
	return nil
}

// heapGrowth in percent is a sixth faster than Go's 100, and keeps well below 40 MB.
const heapGrowth = 200

// Answer writes the table row by row.
func (q *each) Answer(s *run.Session) (run.Reply, error) {
	in, name := io.Reader(s.Env.In), "standard input"
	if len(q.words) == 2 && q.words[1] != "-" {
		file, err := s.Env.Open(q.words[1])
		if err != nil {
			return run.Reply{}, fault.Refuse("%s: cannot be read: %s; allowed: a CSV file, or - for standard input", words.Quoted(q.words[1]), run.Reason(err))
		}
		defer file.Close()
		in, name = file, q.words[1]
	}
	jobs := q.jobs
	if jobs == 0 {
		jobs = runtime.NumCPU()
	}
	command, _ := q.rows.named(q.words[0])
	e := &eachRun{session: s, command: command, jobs: jobs}
	// So little stays in memory that the collector would run all the time.
	defer debug.SetGCPercent(debug.SetGCPercent(heapGrowth))
	if err := e.run(in); err != nil {
		return run.Reply{}, err
	}
	return run.Reply{}, e.tellRest(name)
}

// tellRest says what the table does not: columns that are none of the command's, figures
// without a column, and rows that failed.
func (e *eachRun) tellRest(name string) error {
	if len(e.along) > 0 {
		e.session.Tell("brineyard each: taken along, since they are no flags of %s: %s", e.command.Name(), strings.Join(e.along, ", "))
	}
	if len(e.lost) > 0 {
		e.session.Tell("brineyard each: figures that only later rows had, left out: %s", strings.Join(e.lost, ", "))
	}
	if e.failed > 0 {
		return fault.Refuse("%d of %d rows of %s failed; the column \"error\" says why", e.failed, e.rows, words.Quoted(name))
	}
	return nil
}

// eachRun is one pass over a table.
type eachRun struct {
	session      *run.Session
	command      run.Command
	jobs         int
	columns      []eachColumn
	along        []string // headings that are no flags
	rows, failed int
	figures      []figureColumn
	lost         []string
	spare        chan []byte // buffers that were written out
}

// eachColumn is a column of the input.
type eachColumn struct {
	heading string
	flag    string // empty for one that is taken along
	unit    string // added to a bare number
}

// figureColumn is a column of the output.
type figureColumn struct{ key, unit string }

// argsColumn holds what a command takes without a flag.
const argsColumn = "args"

// readHeadings tells the flags among the headings.
func (e *eachRun) readHeadings(head []string) error {
	a := newAsker(e.session, e.command)
	used := map[string]bool{}
	for i, h := range head {
		if i == 0 {
			h = strings.TrimPrefix(h, "\ufeff")
		}
		c := eachColumn{heading: h}
		name, unit := splitHeading(h)
		switch {
		case name == argsColumn || a.flags.Lookup(name) != nil && !unfit[name] && !ofRecord(a.flags, name):
			c.flag, c.unit = name, unit
			if used[name] {
				return fault.Refuse("the heading %s is there twice; allowed: once", words.Quoted(name))
			}
			used[name] = true
		case unfit[name]:
			return fault.Refuse("the heading %s: each writes no journal and draws no chart; allowed: without that column", words.Quoted(name))
		case near(name, a) != "":
			return fault.Refuse("the heading %s is no flag of %s; did you mean %s? write it otherwise to take it along", words.Quoted(h), e.command.Name(), near(name, a))
		default:
			e.along = append(e.along, words.Quoted(h))
		}
		e.columns = append(e.columns, c)
	}
	if len(used) == 0 {
		return fault.Refuse("no heading is a flag of %s: %s; allowed: with commas between, %s", e.command.Name(), strings.Join(e.along, ", "), strings.Join(a.names(), ", "))
	}
	return nil
}

// unfit are flags that mean nothing for a row.
var unfit = map[string]bool{"record": true, "operator": true, "ascii": true, "curve": true, "gate": true}

// ofRecord tells whether a flag says how an answer is recorded: a log may well have a column of that
// name, which is taken along.
func ofRecord(flags *pflag.FlagSet, name string) bool {
	switch name {
	case "at", "as-seen", "wait":
		return flags.Lookup("record") != nil
	}
	return false
}

// splitHeading cuts "volume [gal]" into name and unit.
func splitHeading(h string) (name, unit string) {
	h = strings.TrimSpace(h)
	if at := strings.LastIndexByte(h, '['); at > 0 && strings.HasSuffix(h, "]") {
		return strings.TrimSpace(h[:at]), strings.TrimSpace(h[at+1 : len(h)-1])
	}
	return h, ""
}

// near finds a flag that a heading may have been meant for: one slip off, and no more, since
// a heading of the user's own is taken along.
func near(name string, a *asker) string {
	for _, n := range a.names() {
		if len(name) > 3 && words.OneSlip(name, n) {
			return n
		}
	}
	return ""
}

// heading is that of a figure.
func (f figureColumn) heading() string {
	if f.unit == "" {
		return f.key
	}
	return fmt.Sprintf("%s [%s]", f.key, f.unit)
}
