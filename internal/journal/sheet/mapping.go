package sheet

import (
	"encoding/csv"
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// Mapping says which column of another file goes where, or what is the same in all
// its rows.
type Mapping []Source

// Source is where a column of the journal comes from.
type Source struct {
	Column  string // of the journal, without unit
	Heading string // of the other file; empty if Value is for every row
	Unit    string // of numbers that stand alone; empty if the heading or the cells tell
	Value   string
}

// ParseMapping reads a mapping like
//
//	time=Date,volume=Gallons made:gal,kind==batch
//
// COLUMN=HEADING takes the column from under a heading, COLUMN=HEADING:UNIT in a unit,
// and COLUMN==VALUE puts the value into every row. A heading with a comma is quoted
// with its column: "note=Remarks, if any". Of time and due, COLUMN=DATE+CLOCK joins two
// headings, unless one has the plus in it.
func ParseMapping(text string) (Mapping, error) {
	in := csv.NewReader(strings.NewReader(text))
	parts, err := in.Read()
	if err != nil || strings.ContainsAny(text, "\r\n") {
		return nil, errors.New("mapping: not a list; allowed: COLUMN=HEADING pairs with commas between, like time=Date,volume=Gallons made:gal,kind==batch")
	}
	var m Mapping
	for _, part := range parts {
		name, rest, found := strings.Cut(part, "=")
		name, rest = strings.TrimSpace(name), strings.TrimSpace(rest)
		c := columnNamed(name)
		value, constant := strings.CutPrefix(rest, "=")
		switch {
		case c == nil:
			return nil, fmt.Errorf("mapping: %s is no column of a journal; allowed: %s", words.Quoted(name), words.Joined(importable(), "none"))
		case !found || rest == "" || (constant && value == ""):
			return nil, fmt.Errorf("mapping: %s has no heading; allowed: %s=HEADING or %s==VALUE", name, name, name)
		case constant:
			m = append(m, Source{Column: name, Value: strings.TrimSpace(value)})
		default:
			heading, unit := c.cutUnit(rest)
			m = append(m, Source{Column: name, Heading: heading, Unit: unit})
		}
	}
	return m, m.check()
}

// cutUnit cuts a known unit off a heading. Other text after a colon stays in the heading.
func (c *column) cutUnit(text string) (heading, unit string) {
	at := strings.LastIndexByte(text, ':')
	if at > 0 && c.knowsUnit(strings.TrimSpace(text[at+1:])) {
		return strings.TrimSpace(text[:at]), strings.TrimSpace(text[at+1:])
	}
	return text, ""
}

// knowsUnit tells whether a unit may stand behind the column's numbers: of some units 0 is
// out of range, of others 300.
func (c *column) knowsUnit(unit string) bool {
	if unit == "" || c.unit == "" {
		return false
	}
	var e journal.Entry
	in := &manner{}
	return c.read(&e, cell{text: "0" + unit, in: in}) == nil || c.read(&e, cell{text: "300" + unit, in: in}) == nil
}

// check makes sure that an entry can be made of the mapping.
func (m Mapping) check() error {
	had := map[string]bool{}
	for _, s := range m {
		c := columnNamed(s.Column)
		switch {
		case c == nil:
			return fmt.Errorf("mapping: %s is no column of a journal; allowed: %s", words.Quoted(s.Column), words.Joined(importable(), "none"))
		case had[s.Column]:
			return fmt.Errorf("mapping: %s is there twice; allowed: once", s.Column)
		case s.Unit != "" && !c.knowsUnit(s.Unit):
			return fmt.Errorf("mapping: %s is no unit of %s", words.Quoted(s.Unit), s.Column)
		}
		had[s.Column] = true
	}
	if !had["time"] {
		return errors.New("mapping: time is missing; expected one like time=Date")
	}
	if !had["kind"] {
		return errors.New("mapping: kind is missing; expected one like kind=Type, or kind==batch if all rows are batches")
	}
	return nil
}

// columnNamed finds a column that can be imported.
func columnNamed(name string) *column {
	for i := range columns {
		if columns[i].name == name {
			return &columns[i]
		}
	}
	return nil
}

func importable() []string {
	var names []string
	for i := range columns {
		names = append(names, columns[i].name)
	}
	return names
}
