package sheet

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// column is a column of a journal that a sheet can fill: it reads a cell into an entry.
type column struct {
	name  string
	units [2]string // by system; empty for none
	read  func(e *journal.Entry, c cell) error
}

// cell is one of a sheet.
type cell struct {
	text string
	unit string // for a number that stands alone; empty if none is known
	loc  *time.Location
}

// columns are those that a sheet can fill, in the order of the journal.
var columns = []column{
	{name: "time", read: readTime},
	{name: "kind", read: readKind},
	text("tank", func(e *journal.Entry) *string { return &e.Tank }),
	text("from", func(e *journal.Entry) *string { return &e.From }),
	text("liquid", func(e *journal.Entry) *string { return &e.Liquid }),
	amount("volume", gallons, func(e *journal.Entry) **quantity.Volume { return &e.Volume }, quantity.ParseVolume),
	amount("nacl", percent, func(e *journal.Entry) **quantity.Strength { return &e.NaCl }, quantity.ParseStrength),
	amount("kcl", percent, func(e *journal.Entry) **quantity.Strength { return &e.KCl }, quantity.ParseStrength),
	amount("cacl2", percent, func(e *journal.Entry) **quantity.Strength { return &e.CaCl2 }, quantity.ParseStrength),
	amount("mgcl2", percent, func(e *journal.Entry) **quantity.Strength { return &e.MgCl2 }, quantity.ParseStrength),
	amount("temp", [2]string{"F", "C"}, func(e *journal.Entry) **quantity.Temperature { return &e.Temp }, quantity.ParseTemperature),
	text("scale", func(e *journal.Entry) *string { return &e.Scale }),
	amount("reading", [2]string{}, func(e *journal.Entry) **float64 { return &e.Reading }, parsePlain),
	amount("salt", [2]string{"lb", "kg"}, func(e *journal.Entry) **quantity.Mass { return &e.Salt }, quantity.ParseMass),
	amount("water", gallons, func(e *journal.Entry) **quantity.Volume { return &e.Water }, quantity.ParseVolume),
	text("operator", func(e *journal.Entry) *string { return &e.Operator }),
	text("truck", func(e *journal.Entry) *string { return &e.Truck }),
	text("route", func(e *journal.Entry) *string { return &e.Route }),
	amount("cost", [2]string{}, func(e *journal.Entry) **quantity.Money { return &e.Cost }, quantity.ParseMoney),
	text("note", func(e *journal.Entry) *string { return &e.Note }),
}

var gallons, percent = [2]string{"gal", "L"}, [2]string{"%", "%"}

// text is a column of words.
func text(name string, field func(*journal.Entry) *string) column {
	return column{name: name, read: func(e *journal.Entry, c cell) error {
		*field(e) = c.text
		return nil
	}}
}

// amount is a column of numbers in a unit.
func amount[Q ~float64](name string, units [2]string, field func(*journal.Entry) **Q, parse func(string) (Q, bool, error)) column {
	return column{name: name, units: units, read: func(e *journal.Entry, c cell) error {
		q, bare, err := parse(c.withUnit())
		switch {
		case err != nil:
			return errors.New(words.Quoted(c.text) + ": " + err.Error())
		case bare && units[quantity.US] != units[quantity.Metric]:
			return errors.New(words.Quoted(c.text) + " has no unit; allowed: one in the cell, in the heading, or in the mapping, like " +
				name + "=HEADING:" + units[quantity.US])
		}
		*field(e) = &q
		return nil
	}}
}

// thousands are set off by commas in what a spreadsheet shows. It is made when a file
// is imported, since it takes longer than most commands.
var thousands = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\$?\d{1,3}(,\d{3})+(\.\d+)?( ?[a-zA-Z%]+)?$`)
})

// withUnit gives a number that stands alone its unit.
func (c cell) withUnit() string {
	if thousands().MatchString(c.text) {
		c.text = strings.ReplaceAll(c.text, ",", "")
	}
	if c.text != "" && strings.ContainsRune("0123456789.", rune(c.text[len(c.text)-1])) {
		return c.text + c.unit
	}
	return c.text
}

func parsePlain(text string) (float64, bool, error) {
	x, err := journal.Number(text)
	return x, true, err
}

// readTime reads a time, month first where it is written with slashes; one without a zone is
// of the place.
func readTime(e *journal.Entry, c cell) error {
	for _, layout := range []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02", "1/2/2006 15:04", "1/2/2006", "1/2/06 15:04", "1/2/06", "1/2/2006 3:04 PM", "1/2/06 3:04 PM"} {
		if t, err := time.ParseInLocation(layout, c.text, c.loc); err == nil {
			e.Time = t
			return nil
		}
	}
	return fmt.Errorf("%s is no time; allowed: one like 2026-01-15 06:40 or 1/15/2026 6:40 (month first), or a date alone", words.Quoted(c.text))
}

// readKind takes the kinds that stand for themselves: an entry about another would need the
// numbers of another file.
func readKind(e *journal.Entry, c cell) (err error) {
	e.Kind, err = journal.KindNamed(strings.ToLower(c.text), journal.EventKinds())
	return err
}
