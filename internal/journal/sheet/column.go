package sheet

import (
	"errors"
	"strings"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// column is a column of a journal that a sheet can fill: it reads a cell into an entry.
type column struct {
	name  string
	unit  string // one that its numbers may have; empty for none
	timed bool   // may be made of a column of dates and one of clock times
	read  func(e *journal.Entry, c cell) error
}

// cell is one of a sheet.
type cell struct {
	text string
	unit string // for a number that stands alone; empty if none is known
	in   *manner
}

// manner is how a sheet writes its cells, and what its rows have in common.
type manner struct {
	zone         *time.Location
	dates        Dates
	decimalComma bool
	repeated     int // clock times that were there twice
	names        map[string]string
}

// columns are those that a sheet can fill, in the order of the journal.
var columns = []column{
	{name: "time", timed: true, read: func(e *journal.Entry, c cell) (err error) {
		e.Time, err = c.time()
		return err
	}},
	{name: "kind", read: readKind},
	text("tank", func(e *journal.Entry) *string { return &e.Tank }),
	text("from", func(e *journal.Entry) *string { return &e.From }),
	text("liquid", func(e *journal.Entry) *string { return &e.Liquid }),
	measured("volume", "gal", func(e *journal.Entry) **quantity.Volume { return &e.Volume }, quantity.ParseVolume),
	plain("nacl", "%", func(e *journal.Entry) **quantity.Strength { return &e.NaCl }, quantity.ParseStrength),
	plain("kcl", "%", func(e *journal.Entry) **quantity.Strength { return &e.KCl }, quantity.ParseStrength),
	plain("cacl2", "%", func(e *journal.Entry) **quantity.Strength { return &e.CaCl2 }, quantity.ParseStrength),
	plain("mgcl2", "%", func(e *journal.Entry) **quantity.Strength { return &e.MgCl2 }, quantity.ParseStrength),
	measured("temp", "F", func(e *journal.Entry) **quantity.Temperature { return &e.Temp }, quantity.ParseTemperature),
	text("scale", func(e *journal.Entry) *string { return &e.Scale }),
	plain("reading", "", func(e *journal.Entry) **float64 { return &e.Reading }, parseReading),
	measured("salt", "lb", func(e *journal.Entry) **quantity.Mass { return &e.Salt }, quantity.ParseMass),
	measured("water", "gal", func(e *journal.Entry) **quantity.Volume { return &e.Water }, quantity.ParseVolume),
	text("operator", func(e *journal.Entry) *string { return &e.Operator }),
	text("truck", func(e *journal.Entry) *string { return &e.Truck }),
	text("route", func(e *journal.Entry) *string { return &e.Route }),
	plain("cost", "", func(e *journal.Entry) **quantity.Money { return &e.Cost }, quantity.ParseMoney),
	text("note", func(e *journal.Entry) *string { return &e.Note }),
	text("line", func(e *journal.Entry) *string { return &e.Line }),
	text("ticket", func(e *journal.Entry) *string { return &e.Ticket }),
	plain("purity", "%", func(e *journal.Entry) **quantity.Strength { return &e.Purity }, quantity.ParseStrength),
	plain("moisture", "%", func(e *journal.Entry) **quantity.Strength { return &e.Moisture }, quantity.ParseStrength),
	measured("hours", "h", func(e *journal.Entry) **quantity.Duration { return &e.Hours }, quantity.ParseDuration),
	measured("distance", "mi", func(e *journal.Entry) **quantity.Length { return &e.Distance }, quantity.ParseLength),
	{name: "due", timed: true, read: func(e *journal.Entry, c cell) error {
		t, err := c.time()
		e.Due = &t
		return err
	}},
}

// text is a column of words.
func text(name string, field func(*journal.Entry) *string) column {
	return column{name: name, read: func(e *journal.Entry, c cell) error {
		*field(e) = c.in.kept(c.text)
		return nil
	}}
}

// kept returns a copy of words that does not hold on to their row. Names come again and
// again, and are kept once.
func (m *manner) kept(text string) string {
	const longest, most = 32, 10_000 // beyond are remarks, not names
	if known, ok := m.names[text]; ok {
		return known
	}
	text = strings.Clone(text)
	if len(text) <= longest && len(m.names) < most {
		m.names[text] = text
	}
	return text
}

// parser reads a quantity, and tells whether it had no unit.
type parser[Q ~float64] func(text string) (q Q, bare bool, err error)

// plain is a column of numbers that mean one thing without a unit.
func plain[Q ~float64](name, unit string, field func(*journal.Entry) **Q, parse parser[Q]) column {
	return column{name: name, unit: unit, read: func(e *journal.Entry, c cell) error {
		q, _, err := number(c, parse)
		*field(e) = &q
		return err
	}}
}

// measured is a column of numbers that mean nothing without a unit.
func measured[Q ~float64](name, unit string, field func(*journal.Entry) **Q, parse parser[Q]) column {
	return column{name: name, unit: unit, read: func(e *journal.Entry, c cell) error {
		q, bare, err := number(c, parse)
		if err == nil && bare {
			return errors.New(words.Quoted(c.text) + " has no unit; allowed: one in the cell, in the heading, or in the mapping, like " +
				name + "=HEADING:" + unit)
		}
		*field(e) = &q
		return err
	}}
}

// mostReading is beyond what the glass of any scale shows: percent, specific gravity,
// degrees, or lb/gal. It tells a decimal mark from one of thousands.
const mostReading = 1000

func parseReading(text string) (float64, bool, error) {
	x, err := journal.Number(text)
	if err == nil && (x >= mostReading || x <= -mostReading) {
		err = errors.New("out of range; allowed: below 1000, as an instrument shows it")
	}
	return x, true, err
}

// readKind takes the kinds that stand for themselves: an entry about another would need the
// numbers of another file.
func readKind(e *journal.Entry, c cell) (err error) {
	e.Kind, err = journal.KindNamed(strings.ToLower(c.text), journal.EventKinds())
	return err
}
