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

// HeaderLine is the first line of a file, with its end.
func HeaderLine(f Form) string {
	return strings.Join(headings(f), ",") + "\n"
}

func headings(f Form) []string {
	var out []string
	for _, c := range f.columns() {
		out = append(out, c.heading(f))
	}
	return append(out, checkHeading)
}

// ParseHeader reads the first line and tells the form that its headings name.
func ParseHeader(line []byte) (Form, error) {
	line = bytes.TrimPrefix(line, []byte(ByteOrderMark))
	if !bytes.HasPrefix(bytes.TrimPrefix(line, []byte(`"`)), []byte(title+" ")) {
		return Form{}, fmt.Errorf("not a journal: its first heading is not %q", fmt.Sprintf("%s %d", title, newest))
	}
	if bytes.Count(line, []byte(";")) >= len(headings(Form{Version: 1}))-1 {
		return Form{}, ResavedError("semicolons stand between the cells")
	}
	cells, err := NewDecoder(Form{Version: newest}).split(line)
	if err != nil {
		return Form{}, errors.New("not a journal: its header is not a line of comma-separated headings")
	}
	v := strings.TrimPrefix(cells[0], title+" ")
	version, err := strconv.Atoi(v)
	if err != nil || version < 1 || version > newest || strconv.Itoa(version) != v {
		return Form{}, fmt.Errorf("journal of version %s; allowed: versions 1 to %d", words.Quoted(v), newest)
	}
	us, metric := Form{quantity.US, version}, Form{quantity.Metric, version}
	wrong := compareHeadings(cells, headings(us))
	if wrong == nil {
		return us, nil
	}
	if compareHeadings(cells, headings(metric)) == nil {
		return metric, nil
	}
	return Form{}, wrong
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

// TornHeader tells whether text is the beginning of a header, as a loss of power
// leaves it, zeros behind it included.
func TornHeader(text []byte) bool {
	text = bytes.TrimRight(text, "\x00")
	for _, f := range forms() {
		if len(text) > 0 && strings.HasPrefix(HeaderLine(f), string(text)) {
			return true
		}
	}
	return false
}
