package journal

import (
	"errors"
	"fmt"
	"io"
	"os"

	"brineyard/internal/quantity"
)

// Journal is what a file holds.
type Journal struct {
	System  quantity.System // of its columns
	Entries []Entry         // in the order of the file
	Faults  []Fault
	Torn    int64 // bytes of a last line that a loss of power cut short

	form     form
	lines    []int // of the entries
	repeated []int // numbers that a row had after another
}

// Fault is a line that is not as it should be.
type Fault struct {
	Line   int // from 1
	Number int // of the entry; 0 if it is not known
	Text   string
}

// String says where and what.
func (f Fault) String() string {
	if f.Number == 0 {
		return fmt.Sprintf("line %d: %s", f.Line, f.Text)
	}
	return fmt.Sprintf("line %d, entry %d: %s", f.Line, f.Number, f.Text)
}

// Read reads the journal at path. A row that cannot be read is a fault, and the rest
// is read; so is one whose check is wrong, but it counts as an entry if it can be
// read otherwise, and so does one behind missing numbers. A row that repeats a number
// does not count. An error means that the file is no journal or cannot be read.
func Read(path string) (*Journal, error) {
	real, found, err := resolve(path)
	if err != nil {
		return nil, err
	}
	if !found {
		return nil, fmt.Errorf("%s: %w", path, os.ErrNotExist)
	}
	defer lockToRead(real)()
	f, err := os.Open(real)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, reason(err))
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, reason(err))
	}
	j, err := readFrom(f, info.Size())
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, reason(err))
	}
	return j, nil
}

// readFrom reads a journal of that size.
func readFrom(f io.ReaderAt, size int64) (*Journal, error) {
	j := &Journal{}
	l := newLineReader(io.NewSectionReader(f, 0, size))
	switch err := l.next(); {
	case err == io.EOF:
		return j, nil // as empty as a journal can be
	case err != nil:
		return nil, err
	}
	written, err := parseHeader(l.text)
	if err != nil {
		if !l.ended && tornHeader(l.text) {
			j.Torn = size
			return j, nil
		}
		return nil, err
	}
	j.System, j.form = written.sys, written
	rows, err := countRows(f, size)
	if err != nil {
		return nil, err
	}
	j.Entries, j.lines = make([]Entry, 0, rows), make([]int, 0, rows)
	return j, j.rows(l)
}

// countRows tells how many rows to make room for: as many as lines, but no more than
// the shortest rows that fit.
func countRows(f io.ReaderAt, size int64) (int, error) {
	const shortest = 50
	l, n := newLineReader(io.NewSectionReader(f, 0, size)), 0
	for {
		err := l.next()
		if err == io.EOF {
			return min(n, int(size/shortest)), nil
		}
		if err != nil {
			return 0, err
		}
		n++
	}
}

// rows reads the lines behind the header.
func (j *Journal) rows(l *lineReader) error {
	dec, seq := newDecoder(j.form), sequence{next: 1}
	for {
		switch err := l.next(); {
		case err == io.EOF:
			return nil
		case err != nil:
			return err
		case !l.ended && (l.long || !checkFits(l.text)):
			j.Torn = l.length
			return nil
		case l.long:
			j.fault(l.number, 0, fmt.Errorf("longer than %d bytes", mostLine))
			continue
		}
		e, err := dec.row(l.text)
		if err != nil {
			j.fault(l.number, e.Number, err)
		}
		if e.Number == 0 {
			continue
		}
		repeated, order := seq.admit(e.Number)
		if order != nil {
			j.fault(l.number, e.Number, order)
		}
		if repeated {
			j.repeated = append(j.repeated, e.Number)
		} else if err == nil || errors.Is(err, errChanged) {
			j.Entries = append(j.Entries, e)
			j.lines = append(j.lines, l.number)
		}
	}
}

func (j *Journal) fault(line, number int, err error) {
	j.Faults = append(j.Faults, Fault{line, number, err.Error()})
}

// sequence watches the entry numbers.
type sequence struct {
	last   int          // of the row before
	next   int          // all below were there
	beyond map[int]bool // those that were there above next
}

// admit tells whether a number was there before, and what is wrong with its place.
func (s *sequence) admit(n int) (repeated bool, fault error) {
	switch {
	case n < s.next || s.beyond[n]:
		repeated = true
		fault = errors.New("its number was there before, so it does not count")
	case n != s.last+1:
		fault = fmt.Errorf("its number does not follow; expected %d", s.last+1)
	}
	s.last = n
	if repeated {
		return true, fault
	}
	if n > s.next {
		if s.beyond == nil {
			s.beyond = map[int]bool{}
		}
		s.beyond[n] = true
	} else {
		s.next++
	}
	for s.beyond[s.next] {
		delete(s.beyond, s.next)
		s.next++
	}
	return false, fault
}
