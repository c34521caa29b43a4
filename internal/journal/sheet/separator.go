package sheet

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"io"

	"brineyard/internal/journal"
)

// mostHead is how much of a file is looked at to find what stands between its cells.
const mostHead = 64 << 10

// separators may stand between cells.
var separators = [...]rune{',', ';', '\t'}

// reader reads rows of any number of cells, which hold until the next is read.
func reader(r io.Reader, separator rune) *csv.Reader {
	in := csv.NewReader(r)
	in.Comma = separator
	in.FieldsPerRecord = -1
	in.ReuseRecord = true
	return in
}

// separator finds what stands between the cells of a file: the first with which it has the
// headings of the mapping, else the one with which it has the most headings, so that the
// refusal lists these as a person sees them.
func (m Mapping) separator(in *bufio.Reader) rune {
	begin, _ := in.Peek(mostHead) // a file that cannot be read says so when it is read
	best, most := separators[0], 0
	for _, s := range separators {
		head, err := reader(bytes.NewReader(begin), s).Read()
		if err != nil {
			continue
		}
		if _, err := m.importers(head); err == nil {
			return s
		}
		if len(head) > most {
			best, most = s, len(head)
		}
	}
	return best
}

// skipMark skips the mark that a spreadsheet may put in front of its text, and refuses text
// of two bytes a character.
func skipMark(in *bufio.Reader) error {
	begin, _ := in.Peek(len(journal.ByteOrderMark)) // likewise
	switch {
	case string(begin) == journal.ByteOrderMark:
		_, err := in.Discard(len(begin))
		return err
	case bytes.HasPrefix(begin, []byte("\xff\xfe")), bytes.HasPrefix(begin, []byte("\xfe\xff")):
		return errors.New("line 1: text in UTF-16; allowed: a file that the spreadsheet saved as CSV in UTF-8")
	}
	return nil
}
