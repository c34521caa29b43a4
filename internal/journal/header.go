package journal

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// checkHeading is the last heading, behind those of the columns.
const checkHeading = "check"

// ByteOrderMark is what a spreadsheet may put in front of a file that it saves.
const ByteOrderMark = "\ufeff"

// headerLine is the first line of a file, with its end.
func headerLine(f form) string {
	return strings.Join(headings(f), ",") + "\n"
}

func headings(f form) []string {
	var out []string
	for _, c := range f.columns() {
		out = append(out, c.heading(f))
	}
	return append(out, checkHeading)
}

// parseHeader reads the first line and tells the form that its headings name.
func parseHeader(line []byte) (form, error) {
	line = bytes.TrimPrefix(line, []byte(ByteOrderMark))
	if !bytes.HasPrefix(bytes.TrimPrefix(line, []byte(`"`)), []byte(title+" ")) {
		return form{}, fmt.Errorf("not a journal: its first heading is not %q", fmt.Sprintf("%s %d", title, newest))
	}
	if bytes.Count(line, []byte(";")) >= len(headings(form{version: 1}))-1 {
		return form{}, resavedError("semicolons stand between the cells")
	}
	cells, err := newDecoder(form{version: newest}).split(line)
	if err != nil {
		return form{}, errors.New("not a journal: its header is not a line of comma-separated headings")
	}
	v := strings.TrimPrefix(cells[0], title+" ")
	version, err := strconv.Atoi(v)
	if err != nil || version < 1 || version > newest || strconv.Itoa(version) != v {
		return form{}, fmt.Errorf("journal of version %s; allowed: versions 1 to %d", words.Quoted(v), newest)
	}
	us, metric := form{quantity.US, version}, form{quantity.Metric, version}
	wrong := compareHeadings(cells, headings(us))
	if wrong == nil {
		return us, nil
	}
	if compareHeadings(cells, headings(metric)) == nil {
		return metric, nil
	}
	return form{}, wrong
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
	for _, f := range forms() {
		if len(text) > 0 && strings.HasPrefix(headerLine(f), string(text)) {
			return true
		}
	}
	return false
}
