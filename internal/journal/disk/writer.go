package disk

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// writer is a journal that is open for adding, under the lock.
type writer struct {
	path    string  // as it was named
	real    string  // with links followed
	f       storage // the file, in place: it keeps owner and mode
	made    bool    // by this addition
	form    journal.Form
	size    int64 // of what is whole
	torn    int64 // bytes behind that
	fresh   bool  // it has no header yet
	unended bool  // its last line is whole but for the line end
	last    int   // the highest entry number, of those that are lost too
	first   string
	mark    string // checks of the first and of the last row; empty for none
	lost    journal.Span
	newest  slot // of the side file
	state   End
	log     *Log // the journal as it stands; nil where it has no rows, or was not read
}

// storage is what an addition needs of a file.
type storage interface {
	io.ReaderAt
	io.WriterAt
	io.Closer
	Stat() (fs.FileInfo, error)
	Truncate(size int64) error
	Sync() error
}

func (w *writer) close() { _ = w.f.Close() } // what was written is synced by now

func (w *writer) syncDir() error { return syncDir(filepath.Dir(w.real)) }

// survey finds out where the journal ends and how its numbers go on. Where the side file knows the
// end, that is all that is read, unless all has to be.
func (w *writer) survey(sys quantity.System, all bool) error {
	info, err := w.f.Stat()
	if err != nil {
		return err
	}
	w.newest, w.state = readEnd(w.real)
	size := info.Size()
	if size == 0 {
		w.form, w.fresh = journal.NewestForm(sys), true
		w.surveyLost(ending{})
		return nil
	}
	if !all && w.state == EndKnown && w.newest.adds == 0 && w.newest.size == size && w.newest.marksEnd(w.f, size) {
		w.size, w.last, w.first, w.mark = size, w.newest.last, known(w.newest.first), known(w.newest.mark)
		return w.surveyHeader(size)
	}
	return w.surveyAll(sys, size)
}

// known is a check that the side file has; empty for none.
func known(check string) string {
	if check == none {
		return ""
	}
	return check
}

// surveyHeader reads the first line.
func (w *writer) surveyHeader(size int64) (err error) {
	head, err := readRange(w.f, 0, min(size, mostLine))
	if err != nil {
		return err
	}
	head, _, _ = bytes.Cut(head, []byte("\n"))
	w.form, err = journal.ParseHeader(trimEnd(head))
	return err
}

// surveyAll goes through the whole file.
func (w *writer) surveyAll(sys quantity.System, size int64) error {
	l := &Log{f: w.f, size: size, close: func() error { return nil }, looks: map[int]string{}}
	s := newScan(l, w.newest, w.state)
	if err := s.run(); err != nil {
		return err
	}
	w.size, w.torn = size-l.Torn, l.Torn
	if s.dec == nil { // its header is torn
		w.form, w.fresh = journal.NewestForm(sys), true
		w.surveyLost(s.ending)
		return nil
	}
	w.form, w.first, w.last = l.form, known(s.ending.first), l.Highest
	if l.Highest == 0 && len(l.Faults) > 0 {
		return fmt.Errorf("none of its %d rows tells its entry number; allowed: at least one that does", len(l.Faults))
	}
	w.surveyLost(s.ending)
	if l.Rows > 0 {
		w.log = l
	}
	end, err := lastLine(w.f, w.size)
	if err != nil {
		return err
	}
	w.unended = !bytes.HasSuffix(end, []byte("\n"))
	if end = trimEnd(end); numberOf(end) == l.Highest && w.lost == (journal.Span{}) {
		w.mark = journal.CheckCell(end)
	}
	return nil
}

// surveyLost heeds the numbers of entries that were acknowledged and are gone.
func (w *writer) surveyLost(j ending) {
	w.state, w.lost = w.newest.judge(w.state, j)
	if w.lost != (journal.Span{}) {
		w.last = w.lost.To
	}
}

// lastLine is the last line of what is whole, with its end if it has one. Blank lines at the end
// are not heeded but for that end.
func lastLine(f io.ReaderAt, size int64) ([]byte, error) {
	tail, err := readRange(f, max(0, size-2*mostLine), min(size, 2*mostLine))
	if err != nil {
		return nil, err
	}
	end := tail[len(bytes.TrimRight(tail, "\r\n,")):]
	text := bytes.TrimRight(tail, "\r\n,")
	line := text[bytes.LastIndexByte(text, '\n')+1:]
	if bytes.HasSuffix(end, []byte("\n")) {
		return append(bytes.Clone(line), '\n'), nil
	}
	return line, nil
}

// marksEnd tells whether a journal of a size ends in the row that was acknowledged last.
func (s slot) marksEnd(f io.ReaderAt, size int64) bool {
	line, err := lastLine(f, size)
	if err != nil || !bytes.HasSuffix(line, []byte("\n")) {
		return false
	}
	line = trimEnd(line)
	return numberOf(line) == s.last && journal.CheckCell(line) == s.mark && journal.CheckFits(line)
}

// numberOf is the entry number of a line; 0 if it tells none.
func numberOf(line []byte) int {
	cell, _, _ := bytes.Cut(line, []byte(","))
	n, err := journal.EntryNumber(string(bytes.Trim(cell, `"`)))
	if err != nil {
		return 0
	}
	return n
}

// readRange reads part of a file.
func readRange(f io.ReaderAt, from, length int64) ([]byte, error) {
	part := make([]byte, length)
	_, err := io.ReadFull(io.NewSectionReader(f, from, length), part)
	return part, err
}
