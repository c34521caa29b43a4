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

// CheckOf is the check of a row's text: CRC-32C in letters, since a spreadsheet may
// take digits for a number.
func CheckOf(line []byte) string {
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

// CheckFits tells whether a line, without its end, closes with the check of what stands
// before.
func CheckFits(line []byte) bool {
	at := bytes.LastIndexByte(line, ',')
	if at < 0 {
		return false
	}
	letters := checkLetters(line[:at])
	return bytes.Equal(letters[:], line[at+1:])
}

// CheckCell is the check as it stands in a line, with the quotes and the commas that a spreadsheet
// may add taken off; empty if there is none.
func CheckCell(line []byte) string {
	line = bytes.TrimRight(line, ",")
	cell := string(bytes.Trim(line[bytes.LastIndexByte(line, ',')+1:], `"`))
	if !IsCheck(cell) {
		return ""
	}
	return cell
}

// IsCheck tells whether a text is one that CheckOf may give.
func IsCheck(text string) bool {
	for i := range len(text) {
		if text[i] < 'a' || text[i] > 'p' {
			return false
		}
	}
	return len(text) == 8
}

// Encoder makes lines of entries.
type Encoder struct {
	buf   bytes.Buffer
	out   *csv.Writer
	cells []string
}

func NewEncoder() *Encoder {
	c := &Encoder{}
	c.out = csv.NewWriter(&c.buf)
	return c
}

// line makes a line without an end; it holds until the next call.
func (c *Encoder) line(cells []string) []byte {
	c.buf.Reset()
	// Neither fails: the buffer takes everything.
	_ = c.out.Write(cells)
	c.out.Flush()
	return bytes.TrimSuffix(c.buf.Bytes(), []byte("\n"))
}

// row makes the line of an entry, with its check and without an end; it holds until
// the next call.
func (c *Encoder) Row(e *Entry, f Form) []byte {
	c.cells = c.cells[:0]
	for _, col := range f.columns() {
		c.cells = append(c.cells, col.format(e, f.Units))
	}
	line := c.line(c.cells)
	return append(append(line, ','), CheckOf(line)...)
}

// Decoder takes lines back to entries.
type Decoder struct {
	Form
	Reuse    bool     // what an entry points to is that of the one before
	spare    Entry    // which holds it
	kinds    []Kind   // that there are
	cells    []string // of the line at hand
	rest     []byte   // of the line, for the CSV reader
	in       *csv.Reader
	interned map[string]string
	rewrite  *Encoder
}

func NewDecoder(f Form) *Decoder {
	d := &Decoder{Form: f, kinds: Kinds(), interned: map[string]string{}, rewrite: NewEncoder()}
	d.restart()
	return d
}

func (d *Decoder) restart() {
	d.in = csv.NewReader(d)
	d.in.FieldsPerRecord = -1
	d.in.ReuseRecord = true
}

// Read hands the CSV reader one line and then an end, so that a quote left open
// swallows no further rows.
func (d *Decoder) Read(p []byte) (int, error) {
	if len(d.rest) == 0 {
		return 0, io.EOF
	}
	n := copy(p, d.rest)
	d.rest = d.rest[n:]
	return n, nil
}

// split cuts a line, without its end, into cells; they hold until the next call.
func (d *Decoder) split(line []byte) ([]string, error) {
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
func (d *Decoder) intern(text string) string {
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

// ErrChanged is the fault of a row whose check alone is wrong.
var ErrChanged = errors.New("the check does not fit the row: it was changed outside this program")

// Row reads a line without its end. With ErrChanged the entry is good all the same;
// with another error its number may be known.
func (d *Decoder) Row(line []byte) (e Entry, err error) {
	err = d.Into(&e, line)
	return e, err
}

// Into is Row for an entry that is there.
func (d *Decoder) Into(e *Entry, line []byte) error {
	*e = Entry{}
	cells, err := d.split(line)
	if err != nil {
		return errors.New("not a row of comma-separated cells: a quote is out of place")
	}
	width := len(d.columns())
	if cells = withoutEmptyEnd(cells, width+1); len(cells) != width+1 {
		e.Number, _ = EntryNumber(cells[0])
		return wrongWidth(cells, width+1)
	}
	if err := d.fill(e, cells); err != nil {
		return err
	}
	// A spreadsheet may set quotes otherwise; that alone is no change.
	if CheckFits(line) || CheckOf(d.rewrite.line(cells[:width])) == cells[width] {
		return nil
	}
	return ErrChanged
}

// fill fills an entry from the cells of a row.
func (d *Decoder) fill(e *Entry, cells []string) error {
	for i, c := range d.columns() {
		if cells[i] == "" && i > 2 {
			continue
		}
		if err := c.parse(e, d, cells[i]); err != nil {
			return fmt.Errorf("%s: %w", c.heading(d.Form), err)
		}
	}
	if e.Kind.AboutAnother() != (e.Cancels > 0) {
		return fmt.Errorf("cancels: %d in an entry of kind %s; allowed: the number of an entry with undo and accept, none with other kinds", e.Cancels, e.Kind)
	}
	return nil
}
