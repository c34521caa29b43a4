package disk

import (
	"brineyard/internal/journal"
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// mostLine is the longest line, with its end, that a journal may have; it bounds the
// memory that any file can take.
const mostLine = 64 << 10

// mostTorn is the most bytes without a line end that a loss of power may have left
// behind. A file with more is not taken for a journal.
const mostTorn = 16 << 20

// lineReader reads a file line by line in little memory.
type lineReader struct {
	in     *bufio.Reader
	number int    // of the line, from 1
	text   []byte // without its end, LF or CR LF; holds until the next call
	length int64  // in bytes, with the end
	long   bool   // longer than mostLine; text is nothing
	ended  bool   // by a line end
	bare   bool   // ended by CR without LF
	hollow bool   // it begins with zeros
}

// hollow is how many bytes of an addition of several rows are left as zeros until the rest is on
// the disk. Two, so that no single byte that goes wrong looks like it.
const hollow = 2

func newLineReader(r io.Reader) *lineReader { return &lineReader{in: bufio.NewReaderSize(r, mostLine)} }

// next goes to the next line; io.EOF when there is none.
func (l *lineReader) next() error {
	text, err := l.in.ReadSlice('\n')
	if err == io.EOF && len(text) == 0 {
		return io.EOF
	}
	l.number++
	l.length, l.long = int64(len(text)), false
	l.hollow = bytes.HasPrefix(text, make([]byte, hollow))
	for err == bufio.ErrBufferFull {
		if l.length > mostTorn {
			return fmt.Errorf("line %d does not end within %d MiB: not a journal", l.number, mostTorn>>20)
		}
		l.long = true
		text, err = l.in.ReadSlice('\n')
		l.length += int64(len(text))
	}
	if err != nil && err != io.EOF {
		return err
	}
	l.ended = err == nil
	l.bare = !l.ended && bytes.HasSuffix(text, []byte("\r"))
	l.text = nil
	if !l.long {
		l.text = trimEnd(text)
	}
	return nil
}

// trimEnd cuts off the end of a line.
func trimEnd(line []byte) []byte {
	return bytes.TrimSuffix(bytes.TrimSuffix(line, []byte("\n")), []byte("\r"))
}

// complete tells whether a line that has no end is a row that lacks nothing else: one that was
// cut short has no check of eight letters.
func complete(d *journal.Decoder, l *lineReader) bool {
	if l.long {
		return false
	}
	if journal.CheckFits(l.text) {
		return true
	}
	_, err := d.Row(l.text)
	at := bytes.LastIndexByte(l.text, ',')
	return (err == nil || errors.Is(err, journal.ErrChanged)) && journal.IsCheck(string(l.text[at+1:]))
}
