package disk

import (
	"bytes"
	"io"
)

// window reads lines of a file by their offsets, best in their order.
type window struct {
	f    io.ReaderAt
	size int64
	at   int64  // offset of what is read
	buf  []byte // of the window; its length is what is read
}

// nearby is what is read first for a line somewhere else in the file.
const nearby = 2 << 10

// line is the line at an offset, without its end; it holds until the next call.
func (w *window) line(offset int64) ([]byte, error) {
	if line, ok := w.held(offset); ok {
		return line, nil
	}
	most := int64(nearby)
	if end := w.at + int64(len(w.buf)); w.buf == nil || (offset >= w.at && offset <= end) {
		most = mostLine // it goes on
	}
	for {
		if err := w.fill(offset, most); err != nil {
			return nil, err
		}
		if line, ok := w.held(offset); ok {
			return line, nil
		}
		if most == mostLine {
			return nil, io.ErrUnexpectedEOF
		}
		most = mostLine
	}
}

// held is a line that the window has all of.
func (w *window) held(offset int64) (line []byte, ok bool) {
	if offset < w.at || offset >= w.at+int64(len(w.buf)) {
		return nil, false
	}
	rest := w.buf[offset-w.at:]
	if end := bytes.IndexByte(rest, '\n'); end >= 0 {
		return trimEnd(rest[:end+1]), true
	}
	return trimEnd(rest), w.at+int64(len(w.buf)) == w.size
}

// fill reads the window anew.
func (w *window) fill(offset, most int64) error {
	if w.buf == nil {
		w.buf = make([]byte, mostLine)
	}
	w.at, w.buf = offset, w.buf[:min(most, w.size-offset)]
	_, err := io.ReadFull(io.NewSectionReader(w.f, offset, int64(len(w.buf))), w.buf)
	return err
}
