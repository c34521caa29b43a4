package sheet

import (
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// importer puts a cell of another file into an entry, or two that make a time.
type importer struct {
	*column
	source Source
	index  int // of the cell, or of the date; -1 for a value that is the same in every row
	clock  int // of the cell with the clock time; -1 if there is none
	unit   string
}

// text is what the cells of a row hold for the importer; empty for nothing.
func (t *importer) text(cells []string) (string, error) {
	if t.index < 0 {
		return t.source.Value, nil
	}
	text := cellAt(cells, t.index)
	if t.clock < 0 {
		return text, nil
	}
	clock := cellAt(cells, t.clock)
	switch {
	case clock == "":
		return text, nil
	case text == "":
		return "", errors.New(words.Quoted(clock) + " is a time without its date; allowed: both, or neither where the time may be missing")
	}
	return text + " " + clock, nil
}

// cellAt is a cell of a row, which may be short.
func cellAt(cells []string, index int) string {
	if index >= len(cells) {
		return ""
	}
	return journal.Unguard(strings.TrimSpace(cells[index]))
}

// place names the heading, or the column that has the same in every row.
func (t *importer) place() string {
	if t.index < 0 {
		return t.source.Column
	}
	return t.source.Heading
}

// importers finds the headings of a mapping.
func (m Mapping) importers(head []string) ([]importer, error) {
	var out []importer
	for _, s := range m {
		t := importer{columnNamed(s.Column), s, -1, -1, s.Unit}
		if s.Heading != "" {
			if err := t.find(head); err != nil {
				return nil, err
			}
		}
		out = append(out, t)
	}
	return out, nil
}

// find finds the heading of an importer; of a time also the two that a plus joins, unless
// there is one that has a plus of its own.
func (t *importer) find(head []string) error {
	wanted, missing := t.source.Heading, t.source.Heading
	index, unit, err := t.findHeading(head, wanted)
	if err != nil {
		return err
	}
	if t.unit == "" {
		t.unit = unit
	}
	t.index = index
	for at := range wanted {
		if t.index >= 0 || !t.timed || wanted[at] != '+' {
			continue
		}
		lacking, err := t.findTwo(head, wanted[:at], wanted[at+1:])
		switch {
		case err != nil:
			return err
		case lacking != "":
			missing = lacking
		}
	}
	if t.index >= 0 {
		return nil
	}
	return fmt.Errorf("line 1: no heading %s for %s; the file has %s", words.Quoted(missing), t.name, quotedAll(head))
}

// findTwo finds the headings of date and clock time. If the file has only one of them, it
// returns the one that is lacking.
func (t *importer) findTwo(head []string, date, clock string) (lacking string, err error) {
	date, clock = onOneLine(date), onOneLine(clock)
	first, _, err := t.findHeading(head, date)
	if err != nil {
		return "", err
	}
	second, _, err := t.findHeading(head, clock)
	switch {
	case err != nil:
		return "", err
	case first >= 0 && second >= 0:
		t.index, t.clock = first, second
	case first >= 0:
		return clock, nil
	case second >= 0:
		return date, nil
	}
	return "", nil
}

// findHeading finds a heading, with or without the unit in its brackets, and that unit; the
// index is -1 if there is none.
func (t *importer) findHeading(head []string, wanted string) (index int, unit string, err error) {
	index, wanted = -1, onOneLine(wanted)
	for i, h := range head {
		h = onOneLine(h)
		bare, u := t.cutBrackets(h)
		if !strings.EqualFold(h, wanted) && !strings.EqualFold(bare, wanted) {
			continue
		}
		if index >= 0 {
			return -1, "", fmt.Errorf("line 1: the heading %s is there twice; allowed: once", words.Quoted(wanted))
		}
		index, unit = i, u
	}
	return index, unit, nil
}

// onOneLine is a heading with a space for each line break and each stretch of spaces.
func onOneLine(heading string) string { return strings.Join(strings.Fields(heading), " ") }

// quotedAll lists headings.
func quotedAll(head []string) string {
	var names []string
	for _, h := range head {
		names = append(names, words.Quoted(onOneLine(h)))
	}
	return words.Joined(names, "none")
}

// cutBrackets cuts a known unit in brackets off a heading.
func (t *importer) cutBrackets(heading string) (bare, unit string) {
	at := strings.LastIndexAny(heading, "[(")
	if at < 0 || !strings.HasSuffix(heading, "]") && !strings.HasSuffix(heading, ")") {
		return heading, ""
	}
	unit = strings.TrimSpace(heading[at+1 : len(heading)-1])
	if !t.knowsUnit(unit) {
		return heading, ""
	}
	return strings.TrimSpace(heading[:at]), unit
}
