package journal

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"strings"
)

// checkOf is the check of a row's text: CRC-32C in letters, since a spreadsheet may
// take digits for a number.
func checkOf(line []byte) string {
	letters := checkLetters(line)
	return string(letters[:])
}

func checkLetters(line []byte) (letters [8]byte) {
	sum := crc32.Checksum(line, crc32.MakeTable(crc32.Castagnoli))
	for i := range letters {
		letters[i] = 'a' + byte(sum>>(28-4*i))&0xf
	}
	return letters
}

// checkFits tells whether a line, without its end, closes with the check of what stands
// before.
func checkFits(line []byte) bool {
	at := bytes.LastIndexByte(line, ',')
	if at < 0 {
		return false
	}
	letters := checkLetters(line[:at])
	return bytes.Equal(letters[:], line[at+1:])
}

// encoder makes lines of entries.
type encoder struct {
	buf   bytes.Buffer
	out   *csv.Writer
	cells []string
}

func newEncoder() *encoder {
	c := &encoder{}
	c.out = csv.NewWriter(&c.buf)
	return c
}

// line makes a line without an end; it holds until the next call.
func (c *encoder) line(cells []string) []byte {
	c.buf.Reset()
	// Neither fails: the buffer takes everything.
	_ = c.out.Write(cells)
	c.out.Flush()
	return bytes.TrimSuffix(c.buf.Bytes(), []byte("\n"))
}

// row makes the line of an entry, with its check and without an end; it holds until
// the next call.
func (c *encoder) row(e *Entry, f form) []byte {
	c.cells = c.cells[:0]
	for _, col := range f.columns() {
		c.cells = append(c.cells, col.format(e, f.sys))
	}
	line := c.line(c.cells)
	return append(append(line, ','), checkOf(line)...)
}

// decoder takes lines back to entries.
type decoder struct {
	form
	reuse    bool     // what an entry points to is that of the one before
	spare    Entry    // which holds it
	kinds    []Kind   // that there are
	cells    []string // of the line at hand
	rest     []byte   // of the line, for the CSV reader
	in       *csv.Reader
	interned map[string]string
	rewrite  *encoder
}

func newDecoder(f form) *decoder {
	d := &decoder{form: f, kinds: Kinds(), interned: map[string]string{}, rewrite: newEncoder()}
	d.restart()
	return d
}

func (d *decoder) restart() {
	d.in = csv.NewReader(d)
	d.in.FieldsPerRecord = -1
	d.in.ReuseRecord = true
}

// Read hands the CSV reader one line and then an end, so that a quote left open
// swallows no further rows.
func (d *decoder) Read(p []byte) (int, error) {
	if len(d.rest) == 0 {
		return 0, io.EOF
	}
	n := copy(p, d.rest)
	d.rest = d.rest[n:]
	return n, nil
}

// split cuts a line, without its end, into cells; they hold until the next call.
func (d *decoder) split(line []byte) ([]string, error) {
	if len(line) > 0 && bytes.IndexByte(line, '"') < 0 {
		d.cells = d.cells[:0]
		for rest, more := string(line), true; more; {
			var cell string
			cell, rest, more = strings.Cut(rest, ",")
			d.cells = append(d.cells, cell)
		}
		return d.cells, nil
	}
	d.rest = line
	cells, err := d.in.Read()
	if err != nil {
		d.restart() // drop the rest of this line, or it would be read as the next
	}
	return cells, err
}

// intern returns a copy of text that does not hold on to its line. Names come again and
// again, and are kept once.
func (d *decoder) intern(text string) string {
	const name, names = 32, 4096 // bytes, and how many are kept
	if text == "" {
		return ""
	}
	if known, ok := d.interned[text]; ok {
		return known
	}
	if len(text) > name || len(d.interned) >= names {
		return strings.Clone(text)
	}
	text = strings.Clone(text)
	d.interned[text] = text
	return text
}

// errChanged is the fault of a row whose check alone is wrong.
var errChanged = errors.New("the check does not fit the row: it was changed outside this program")

// row reads a line without its end. With errChanged the entry is good all the same;
// with another error its number may be known.
func (d *decoder) row(line []byte) (e Entry, err error) {
	err = d.into(&e, line)
	return e, err
}

// into is row for an entry that is there.
func (d *decoder) into(e *Entry, line []byte) error {
	*e = Entry{}
	cells, err := d.split(line)
	if err != nil {
		return errors.New("not a row of comma-separated cells: a quote is out of place")
	}
	width := len(d.columns())
	if cells = withoutEmptyEnd(cells, width+1); len(cells) != width+1 {
		e.Number, _ = entryNumber(cells[0])
		return wrongWidth(cells, width+1)
	}
	if err := d.fill(e, cells); err != nil {
		return err
	}
	// A spreadsheet may set quotes otherwise; that alone is no change.
	if checkFits(line) || checkOf(d.rewrite.line(cells[:width])) == cells[width] {
		return nil
	}
	return errChanged
}

// complete tells whether a line that has no end is a row that lacks nothing else: one that was
// cut short has no check of eight letters.
func (d *decoder) complete(l *lineReader) bool {
	if l.long {
		return false
	}
	if checkFits(l.text) {
		return true
	}
	_, err := d.row(l.text)
	at := bytes.LastIndexByte(l.text, ',')
	return (err == nil || errors.Is(err, errChanged)) && isCheck(string(l.text[at+1:]))
}

// fill fills an entry from the cells of a row.
func (d *decoder) fill(e *Entry, cells []string) error {
	for i, c := range d.columns() {
		if cells[i] == "" && i > 2 {
			continue
		}
		if err := c.parse(e, d, cells[i]); err != nil {
			return fmt.Errorf("%s: %w", c.heading(d.form), err)
		}
	}
	if e.Kind.aboutAnother() != (e.Cancels > 0) {
		return fmt.Errorf("cancels: %d in an entry of kind %s; allowed: the number of an entry with undo and accept, none with other kinds", e.Cancels, e.Kind)
	}
	return nil
}
