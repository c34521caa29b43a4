package journal

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"brineyard/internal/quantity"
)

// writer is a journal that is open for adding, under the lock.
type writer struct {
	path string
	f    storage // nil as long as there is no file
	made bool    // by this addition
	form
	size    int64 // of what is whole
	torn    int64 // bytes behind that
	fresh   bool  // it has no header yet
	unended bool  // its last line is whole but for the line end
	last    int   // the highest entry number
}

// storage is what an addition needs of a file.
type storage interface {
	io.ReaderAt
	io.WriterAt
	io.Closer
	Truncate(size int64) error
	Sync() error
}

// open opens the journal in place, so that it keeps owner and mode, and looks at its
// beginning and its end; a file that is not there is made later.
func open(path string, sys quantity.System) (*writer, error) {
	w := &writer{path: path, form: form{sys, newest}, fresh: true}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if errors.Is(err, os.ErrNotExist) {
		return w, nil
	}
	if err != nil {
		return nil, reason(err)
	}
	w.f = f
	info, err := f.Stat()
	if err == nil {
		err = w.survey(info.Size())
	}
	if err != nil {
		w.close()
		return nil, reason(err)
	}
	return w, nil
}

func (w *writer) close() {
	if w.f != nil {
		_ = w.f.Close() // what was written is synced by now
		w.f = nil
	}
}

func (w *writer) syncDir() error { return syncDir(filepath.Dir(w.path)) }

// survey reads the header and the end of a file of that size.
func (w *writer) survey(size int64) error {
	if size == 0 {
		return nil
	}
	head, err := readRange(w.f, 0, min(size, mostLine))
	if err != nil {
		return err
	}
	end := bytes.IndexByte(head, '\n')
	if end < 0 {
		return w.surveyHeader(head, size)
	}
	if w.form, err = parseHeader(trimEnd(head[:end])); err != nil {
		return err
	}
	w.fresh = false
	return w.surveyEnd(int64(end)+1, size)
}

// surveyHeader looks at a file that is a single line without an end.
func (w *writer) surveyHeader(head []byte, size int64) error {
	f, err := parseHeader(trimEnd(head))
	switch {
	case err == nil:
		w.form, w.fresh, w.unended, w.size = f, false, true, size
	case tornHeader(head) && size == int64(len(head)):
		w.torn = size
	default:
		return err
	}
	return nil
}

// surveyEnd finds where the whole lines end, and the last entry number. rows is where
// the rows begin. It reads no more than the end of the file, unless that is torn or
// damaged.
func (w *writer) surveyEnd(rows, size int64) error {
	whole, err := lastLineEnd(w.f, size)
	if err != nil {
		return err
	}
	if rest := size - whole; rest > 0 && rest < mostLine {
		line, err := readRange(w.f, whole, rest)
		if err != nil {
			return err
		}
		if checkFits(trimEnd(line)) {
			w.unended, whole = true, size
		}
	}
	w.size, w.torn = whole, size-whole
	from := max(rows, whole-2*mostLine)
	tail, err := readRange(w.f, from, whole-from)
	if err != nil {
		return err
	}
	if from > rows {
		tail = tail[bytes.IndexByte(tail, '\n')+1:] // part of a line
	}
	last, ok := lastNumber(tail)
	if !ok {
		last, err = highestNumber(io.NewSectionReader(w.f, rows, whole-rows))
	}
	w.last = last
	return err
}

// lastNumber is the number of the last of the lines; ok tells that their checks and
// their order are right, so that it can be relied on.
func lastNumber(tail []byte) (last int, ok bool) {
	for line := range bytes.Lines(tail) {
		line = trimEnd(line)
		n := numberOf(line)
		if n == 0 || (last > 0 && n != last+1) || !checkFits(line) {
			return 0, false
		}
		last = n
	}
	return last, true
}

// highestNumber is the highest entry number of all lines. It fails if none of them
// tells one.
func highestNumber(r io.Reader) (int, error) {
	l, highest := newLineReader(r), 0
	for {
		err := l.next()
		if err == io.EOF {
			break
		}
		if err != nil {
			return 0, err
		}
		highest = max(highest, numberOf(l.text))
	}
	if highest == 0 {
		return 0, fmt.Errorf("none of its %d rows tells its entry number; allowed: at least one that does", l.number)
	}
	return highest, nil
}

// numberOf is the entry number of a line; 0 if it tells none.
func numberOf(line []byte) int {
	cell, _, _ := bytes.Cut(line, []byte(","))
	n, err := entryNumber(string(bytes.Trim(cell, `"`)))
	if err != nil {
		return 0
	}
	return n
}

// lastLineEnd is the offset behind the last line end of a file that has one.
func lastLineEnd(f io.ReaderAt, size int64) (int64, error) {
	for end := size; end > 0 && size-end < mostTorn; end -= min(end, mostLine) {
		from := max(0, end-mostLine)
		part, err := readRange(f, from, end-from)
		if err != nil {
			return 0, err
		}
		if at := bytes.LastIndexByte(part, '\n'); at >= 0 {
			return from + int64(at) + 1, nil
		}
	}
	return 0, fmt.Errorf("its last line does not end within %d MiB: not a journal", mostTorn>>20)
}

// readRange reads part of a file.
func readRange(f io.ReaderAt, from, length int64) ([]byte, error) {
	part := make([]byte, length)
	_, err := io.ReadFull(io.NewSectionReader(f, from, length), part)
	return part, err
}
