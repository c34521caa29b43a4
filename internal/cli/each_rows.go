package cli

import (
	"bufio"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/report"
	"brineyard/internal/words"
)

// block is a run of rows that one worker answers.
type block struct {
	rows   [][]string
	faults []error // of reading a row; nil where there is none
	out    []byte  // the rows with their answers, as CSV
	count  int
	failed int
	lost   []string // figures without a column
	done   chan struct{}
}

// blockSize is large enough that handing blocks over costs nothing, and small enough
// that a few of them are no memory to speak of.
const blockSize = 256

// run reads, answers and writes, in the order of the rows and with a bounded number of
// them in memory.
func (e *eachRun) run(in io.Reader) error {
	r := csv.NewReader(bufio.NewReaderSize(in, 1<<16))
	r.FieldsPerRecord = -1
	head, err := r.Read()
	if err != nil {
		var path *fs.PathError
		if errors.As(err, &path) {
			return fault.Refuse("%s: cannot be read: %v; allowed: a CSV file", words.Quoted(path.Path), path.Err)
		}
		return fault.Refuse("no headings: %v; allowed: a line of them first", csvReason(err))
	}
	if err := e.readHeadings(head); err != nil {
		return err
	}
	first, err := e.nextBlock(r)
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	e.settle(first)
	out := bufio.NewWriterSize(e.session.Env.Out, 1<<16)
	if _, err := out.Write(e.head()); err != nil {
		return err
	}
	work, order := make(chan *block, e.jobs), make(chan *block, 2*e.jobs)
	e.spare = make(chan []byte, 3*e.jobs)
	stop := make(chan struct{})
	defer close(stop)
	readErr := make(chan error, 1)
	go func() { readErr <- e.read(r, first, work, order, stop) }()
	for range e.jobs {
		go e.answer(work)
	}
	if err := e.write(out, order); err != nil {
		return err
	}
	if err := out.Flush(); err != nil {
		return err
	}
	return <-readErr
}

// nextBlock reads rows; with an error it holds those before it.
func (e *eachRun) nextBlock(r *csv.Reader) (*block, error) {
	b := &block{done: make(chan struct{}), rows: make([][]string, 0, blockSize), faults: make([]error, 0, blockSize)}
	for len(b.rows) < blockSize {
		row, err := r.Read()
		var syntax *csv.ParseError
		if err != nil && !errors.As(err, &syntax) {
			return b, err
		}
		b.rows, b.faults = append(b.rows, row), append(b.faults, err)
	}
	return b, nil
}

// read hands the blocks to the workers, and in their order to the writer.
func (e *eachRun) read(r *csv.Reader, b *block, work, order chan<- *block, stop <-chan struct{}) error {
	defer close(order)
	defer close(work)
	var err error
	for {
		if len(b.rows) > 0 {
			select {
			case work <- b:
				order <- b
			case <-stop:
				return nil
			}
		}
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case err != nil:
			return err
		}
		b, err = e.nextBlock(r)
	}
}

// answer works on blocks until there are no more.
func (e *eachRun) answer(work <-chan *block) {
	a := newAsker(e.session, e.command)
	a.use(e.columns)
	w := rowWriter{run: e, clean: run.IsTerminal(e.session.Env.Out)}
	for b := range work {
		select {
		case b.out = <-e.spare:
		default:
			b.out = make([]byte, 0, 1<<16)
		}
		for i, row := range b.rows {
			w.row(b, row, e.reply(a, row, b.faults[i]))
		}
		b.count, b.rows, b.faults = len(b.rows), nil, nil
		close(b.done)
	}
}

// reply is what goes behind a row.
func (e *eachRun) reply(a *asker, row []string, unread error) *asked {
	switch {
	case unread != nil:
		return a.failed(e, csvReason(unread))
	case len(row) > len(e.columns):
		return a.failed(e, fault.Refuse("%d cells; allowed: up to %d, as there are headings", len(row), len(e.columns)))
	}
	return a.ask(e, row)
}

// write writes blocks in their order, and tells a person who waits how far it is.
func (e *eachRun) write(out io.Writer, order <-chan *block) error {
	told := run.IsTerminal(e.session.Env.Err)
	blocks := 0
	for b := range order {
		<-b.done
		e.rows += b.count
		e.failed += b.failed
		for _, key := range b.lost {
			if !slices.Contains(e.lost, key) {
				e.lost = append(e.lost, key)
			}
		}
		if _, err := out.Write(b.out); err != nil {
			return err
		}
		select {
		case e.spare <- b.out[:0]:
		default:
		}
		if blocks++; told && blocks%400 == 0 {
			e.session.Tell("%d rows", e.rows)
		}
	}
	return nil
}

// settle takes the columns of the figures from the answers to the first rows.
func (e *eachRun) settle(b *block) {
	a := newAsker(e.session, e.command)
	a.use(e.columns)
	for i, row := range b.rows {
		if b.faults[i] != nil || len(row) > len(e.columns) {
			continue
		}
		figures, err := a.figures(e.columns, row)
		if err != nil {
			continue
		}
		for _, f := range figures {
			if !slices.ContainsFunc(e.figures, func(c figureColumn) bool { return c.key == f.Key }) {
				e.figures = append(e.figures, figureColumn{f.Key, f.Value.Unit})
			}
		}
	}
}

// head is the line of headings.
func (e *eachRun) head() []byte {
	var cells []string
	for _, c := range e.columns {
		cells = append(cells, c.heading)
	}
	for _, heading := range append(e.figureHeadings(), "error") {
		// A heading of the input keeps its name; ours gives way.
		for slices.Contains(cells, heading) {
			heading = "answer " + heading
		}
		cells = append(cells, heading)
	}
	return append(appendCells(nil, cells), '\n')
}

func (e *eachRun) figureHeadings() []string {
	var headings []string
	for _, f := range e.figures {
		headings = append(headings, f.heading())
	}
	return headings
}

// rowWriter puts rows and answers together.
type rowWriter struct {
	run   *eachRun
	clean bool // for a terminal
}

func (w *rowWriter) row(b *block, row []string, a *asked) {
	cells := row[:min(len(row), len(w.run.columns))]
	if w.clean {
		cells = slices.Clone(cells)
		for i := range cells {
			cells[i] = report.Clean(cells[i])
		}
	}
	b.out = appendCells(b.out, cells)
	for i := max(1, len(cells)); i < len(w.run.columns); i++ {
		b.out = append(b.out, ',')
	}
	b.out = append(append(append(b.out, ','), a.cells...), '\n')
	if a.failure {
		b.failed++
	}
	for _, key := range a.lost {
		if !slices.Contains(b.lost, key) {
			b.lost = append(b.lost, key)
		}
	}
}

// appendCells writes cells with commas between, quoted where CSV needs it.
func appendCells(to []byte, cells []string) []byte {
	for i, cell := range cells {
		if i > 0 {
			to = append(to, ',')
		}
		if !strings.ContainsAny(cell, ",\"\r\n") && (cell == "" || cell[0] != ' ') {
			to = append(to, cell...)
			continue
		}
		to = append(to, '"')
		to = append(to, strings.ReplaceAll(cell, `"`, `""`)...)
		to = append(to, '"')
	}
	return to
}

// appendValue writes a value in full precision, with its unit where it is not the
// column's.
func appendValue(to []byte, v report.Value, unit string) []byte {
	if v.Number == nil {
		return appendCells(to, []string{v.Word})
	}
	to = strconv.AppendFloat(to, *v.Number, 'g', -1, 64)
	if v.Unit != unit {
		to = append(append(to, ' '), v.Unit...)
	}
	return to
}

// csvReason says in our words where CSV is broken.
func csvReason(err error) error {
	var syntax *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return errors.New("the input is empty")
	case errors.As(err, &syntax):
		return fault.Refuse("line %d: a quote is out of place", syntax.StartLine)
	}
	return err
}
