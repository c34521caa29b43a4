package disk

import (
	"brineyard/internal/journal"

	"cmp"
	"fmt"
	"io"
	"iter"
	"slices"
)

// Log is a journal that is open to read, row by row, as it stood when it was opened. What
// others add later is not in it.
type Log struct {
	Audit

	form    journal.Form
	f       io.ReaderAt
	close   func() error
	size    int64
	index   [][]place
	ordered bool           // the entries stand in the order of their times
	back    map[int]int    // by which reversal an entry is taken back
	looks   map[int]string // the check of what is wrong with the rows of a number
	err     error
}

// place is where an entry stands.
type place struct{ micros, offset int64 } // its time since 1970, and its line in the file

// places is how many of them are in one piece of the index, so that it grows without copies.
const places = 1 << 14

// Open opens the journal at path and goes through it once. It takes a lock that lets others read
// for as long as it needs to know where the whole rows end, and changes nothing. A row that cannot
// be read is a fault, and the rest is read; so is one whose check is wrong, but it counts as an
// entry if it can be read otherwise, and so does one behind missing numbers. A row that repeats a
// number does not count. An error means that the file is no journal or cannot be read.
func Open(path string) (*Log, error) {
	f, real, _, err := openLocked(path, false, false, Options{})
	if err != nil {
		return nil, err
	}
	l, err := openLog(f, real, func() { unlock(f) })
	if err != nil {
		_ = f.Close()
		return nil, fmt.Errorf("%s: %w", path, reason(err))
	}
	l.close = f.Close
	return l, nil
}

// openLog reads a journal that is locked. It calls release as soon as nobody can change any more
// what it has yet to read.
func openLog(f storage, real string, release func()) (*Log, error) {
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	size := info.Size()
	newest, state := readEnd(real)
	if state == EndKnown && newest.adds == 0 && newest.size == size && newest.marksEnd(f, size) {
		release() // all up to the end is acknowledged, and stays
		release = func() {}
	}
	defer release()
	l := &Log{f: f, size: size, close: func() error { return nil }, looks: map[int]string{}}
	s := newScan(l, newest, state)
	if err := s.run(); err != nil {
		return nil, err
	}
	return l, nil
}

// Close closes the file.
func (l *Log) Close() error { return l.close() }

// Err is the error that ended the last pass before its end; nil for none.
func (l *Log) Err() error { return l.err }

// TakenBack tells by which reversal each entry is taken back, both by their numbers.
func (l *Log) TakenBack() map[int]int { return l.back }

// All goes through all entries that count, in the order of the file, reversals included. An entry
// is valid until the next.
func (l *Log) All() iter.Seq[*journal.Entry] { return l.rows(true, l.inFile()) }

// Effective goes through the entries that hold, in the order of their times: one that was recorded
// late comes where it belongs, those of one time keep the order of the file. Left out are those
// that are taken back, and those about other entries. An entry is valid until the next.
func (l *Log) Effective() iter.Seq[*journal.Entry] {
	return func(yield func(*journal.Entry) bool) {
		offsets := l.inFile()
		if !l.ordered {
			offsets = l.inTime()
		}
		for e := range l.rows(true, offsets) {
			if !e.Kind.AboutAnother() && l.back[e.Number] == 0 && !yield(e) {
				return
			}
		}
	}
}

// inFile goes through the lines of the entries, in the order of the file.
func (l *Log) inFile() iter.Seq[int64] {
	return func(yield func(int64) bool) {
		for _, piece := range l.index {
			for _, p := range piece {
				if !yield(p.offset) {
					return
				}
			}
		}
	}
}

// inTime goes through the lines of the entries, in the order of their times.
func (l *Log) inTime() iter.Seq[int64] {
	all := slices.Concat(l.index...)
	slices.SortFunc(all, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.micros, b.micros), cmp.Compare(a.offset, b.offset))
	})
	return func(yield func(int64) bool) {
		for _, p := range all {
			if !yield(p.offset) {
				return
			}
		}
	}
}

// rows reads the entries of lines; with reuse each is valid until the next.
func (l *Log) rows(reuse bool, offsets iter.Seq[int64]) iter.Seq[*journal.Entry] {
	return func(yield func(*journal.Entry) bool) {
		l.err = nil
		dec, w := journal.NewDecoder(l.form), &window{f: l.f, size: l.size}
		dec.Reuse = reuse
		e := new(journal.Entry)
		for offset := range offsets {
			line, err := w.line(offset)
			if err == nil {
				err = dec.Into(e, line)
			}
			if err != nil && err != journal.ErrChanged {
				l.err = fmt.Errorf("it changed while it was read: %w", reason(err))
				return
			}
			if !yield(e) {
				return
			}
		}
	}
}
