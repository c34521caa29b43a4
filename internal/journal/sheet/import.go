// Package sheet makes entries of a journal out of a spreadsheet's CSV file, whose headings a
// mapping names.
package sheet

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"brineyard/internal/journal"
)

// A file is not imported beyond a size in bytes, and a number of rows.
const (
	mostImport = 64 << 20
	mostRows   = 1_000_000
)

// Options say how to read what a sheet can mean in two ways.
type Options struct {
	Dates Dates          // the order of dates with the year last
	Zone  *time.Location // of times without a zone; nil for UTC
}

// Rows are what a sheet holds.
type Rows struct {
	Entries  []journal.Entry // of the rows without fault; they have no numbers yet
	Lines    []int           // where the row of each entry begins in the file, from 1
	Faults   []journal.Fault // of all rows at once, each with the line where its row begins
	Repeated int             // times of entries that the clock showed twice, taken as the first
}

// Read makes entries of a CSV file with other headings. Its cells have commas, semicolons or
// tabs between them: the first of these with which the file has all the headings of the
// mapping. A number takes its unit from the cell, else from the mapping, else from brackets
// in the heading; one that could mean two units, or two numbers (see number), is a fault. A
// caller that wants all rows or none checks the faults first. Read fails if the mapping does
// not fit, or if the file cannot be read, lacks a heading, or has over 64 MiB or 1,000,000
// rows.
func Read(r io.Reader, m Mapping, o Options) (Rows, error) {
	if err := m.check(); err != nil {
		return Rows{}, err
	}
	if o.Zone == nil {
		o.Zone = time.UTC
	}
	limited := &io.LimitedReader{R: r, N: mostImport + 1}
	in := bufio.NewReaderSize(limited, mostHead)
	if err := skipMark(in); err != nil {
		return Rows{}, err
	}
	comma := m.separator(in)
	s := &sheet{in: reader(in, comma), room: mostRows}
	s.manner = manner{zone: o.Zone, dates: o.Dates, decimalComma: comma != ',', names: map[string]string{}}
	head, err := s.in.Read()
	if err != nil {
		return Rows{}, fmt.Errorf("line 1: no headings: %w", importReason(err))
	}
	if s.importers, err = m.importers(head); err != nil {
		return Rows{}, err
	}
	s.width = len(head)
	err = s.rows()
	switch {
	case limited.N == 0:
		return Rows{}, fmt.Errorf("too large to be imported; allowed: up to %d MiB", mostImport>>20)
	case err != nil:
		return Rows{}, err
	}
	s.Entries, s.Repeated = slices.Concat(append(s.before, s.Entries)...), s.repeated
	return s.Rows, nil
}

// sheet is a file that is being read.
type sheet struct {
	Rows
	manner
	in        *csv.Reader
	importers []importer
	width     int               // headings
	room      int               // rows that may still come
	before    [][]journal.Entry // those that stand before Entries while rows are read
}

// rows reads the rows behind the headings.
func (s *sheet) rows() error {
	for {
		cells, err := s.in.Read()
		var syntax *csv.ParseError
		switch {
		case err == io.EOF:
			return nil
		case errors.As(err, &syntax):
			s.Faults = append(s.Faults, journal.Fault{Line: syntax.StartLine, Text: importReason(err).Error()})
			continue
		case err != nil:
			return err
		case blank(cells):
			continue
		case s.room == 0:
			return fmt.Errorf("too many rows to be imported; allowed: up to %d, not counting blank ones", mostRows)
		}
		s.room--
		line, _ := s.in.FieldPos(0)
		s.row(cells, line)
	}
}

// blank tells whether nothing stands in a row.
func blank(cells []string) bool {
	for _, c := range cells {
		if strings.TrimSpace(c) != "" {
			return false
		}
	}
	return true
}

// row makes an entry of a row, or tells all that is wrong with it.
func (s *sheet) row(cells []string, line int) {
	repeated := s.repeated
	e := s.grow()
	wrong := s.fill(e, cells)
	if len(wrong) == 0 {
		if err := e.Check(); err != nil {
			wrong = []string{err.Error()}
		}
	}
	if len(wrong) == 0 {
		s.Lines = append(s.Lines, line)
		return
	}
	s.Entries = s.Entries[:len(s.Entries)-1]
	s.repeated = repeated // the times of a row that is no entry do not count
	for _, text := range wrong {
		s.Faults = append(s.Faults, journal.Fault{Line: line, Text: text})
	}
}

// grow adds an entry. Entries stay where they are until all are there: moving them whenever
// room is short would take more time than reading them.
func (s *sheet) grow() *journal.Entry {
	const room = 4096
	if len(s.Entries) == cap(s.Entries) {
		s.before, s.Entries = append(s.before, s.Entries), make([]journal.Entry, 0, room)
	}
	s.Entries = append(s.Entries, journal.Entry{})
	return &s.Entries[len(s.Entries)-1]
}

// fill fills an entry from the cells of a row, and returns what is wrong with them.
func (s *sheet) fill(e *journal.Entry, cells []string) (wrong []string) {
	if len(cells) > s.width && !blank(cells[s.width:]) {
		wrong = append(wrong, fmt.Sprintf("%d cells; expected up to %d, as there are headings", len(cells), s.width))
	}
	for i := range s.importers {
		t := &s.importers[i]
		text, err := t.text(cells)
		switch {
		case err != nil:
		case text != "":
			err = t.read(e, cell{text, t.unit, &s.manner})
		case t.name == "time" || t.name == "kind":
			err = errors.New("empty; a row needs its " + t.name)
		}
		if err != nil {
			wrong = append(wrong, t.place()+": "+err.Error())
		}
	}
	return wrong
}

// importReason says in our words where CSV is broken.
func importReason(err error) error {
	var syntax *csv.ParseError
	switch {
	case err == io.EOF:
		return errors.New("the file is empty")
	case errors.As(err, &syntax):
		return errors.New("a quote is out of place")
	}
	return err
}
