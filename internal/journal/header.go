package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// checkHeading is the last heading, behind those of the columns.
const checkHeading = "check"

// byteOrderMark is what a spreadsheet may put in front of a file that it saves.
const byteOrderMark = "\ufeff"

// headerLine is the first line of a file, with its end.
func headerLine(sys quantity.System) string {
	return strings.Join(headings(sys), ",") + "\n"
}

func headings(sys quantity.System) []string {
	var out []string
	for i := range columns {
		out = append(out, columns[i].heading(sys))
	}
	return append(out, checkHeading)
}

// parseHeader reads the first line and tells the system of units that its headings
// name.
func parseHeader(line []byte) (quantity.System, error) {
	line = bytes.TrimPrefix(line, []byte(byteOrderMark))
	if !bytes.HasPrefix(bytes.TrimPrefix(line, []byte(`"`)), []byte(title+" ")) {
		return 0, fmt.Errorf("not a journal: its first heading is not %q", title+" "+version)
	}
	cells, err := newDecoder(quantity.US).split(line)
	if err != nil {
		return 0, errors.New("not a journal: its header is not a line of comma-separated headings")
	}
	if v := strings.TrimPrefix(cells[0], title+" "); v != version {
		return 0, fmt.Errorf("journal of version %s; allowed: version %s", words.Quoted(v), version)
	}
	us := compareHeadings(cells, headings(quantity.US))
	if us == nil {
		return quantity.US, nil
	}
	if compareHeadings(cells, headings(quantity.Metric)) == nil {
		return quantity.Metric, nil
	}
	return 0, us
}

// compareHeadings tells the first heading that is not as it should be.
func compareHeadings(got, want []string) error {
	got = withoutEmptyEnd(got, len(want))
	for i, h := range want {
		switch {
		case i >= len(got):
			return fmt.Errorf("not a journal: heading %d is missing; expected %q", i+1, h)
		case got[i] != h:
			return fmt.Errorf("not a journal: heading %d is %s; expected %q, and US or metric units throughout", i+1, words.Quoted(got[i]), h)
		}
	}
	if len(got) > len(want) {
		return fmt.Errorf("not a journal: heading %d is %s; expected none", len(want)+1, words.Quoted(got[len(want)]))
	}
	return nil
}

// withoutEmptyEnd drops empty cells beyond those that there are, which a spreadsheet may
// add to every row.
func withoutEmptyEnd(cells []string, n int) []string {
	for len(cells) > n && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	return cells
}

// tornHeader tells whether text is the beginning of a header, as a loss of power
// leaves it, zeros behind it included.
func tornHeader(text []byte) bool {
	text = bytes.TrimRight(text, "\x00")
	for _, sys := range []quantity.System{quantity.US, quantity.Metric} {
		if len(text) > 0 && strings.HasPrefix(headerLine(sys), string(text)) {
			return true
		}
	}
	return false
}
