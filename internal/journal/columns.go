package journal

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// column is a column of the file: it formats a cell from an entry, parses one into an
// entry, and imports one of another file. The table of columns drives header, rows and import.
type column struct {
	name       string
	units      [2]string // by system; empty for none
	format     func(e *Entry, sys quantity.System) string
	parse      func(e *Entry, d *decoder, cell string) error
	importCell func(e *Entry, c foreignCell) error // nil if it is never imported
}

// foreignCell is a cell of a file that is no journal.
type foreignCell struct {
	text string
	unit string // for a number that stands alone; empty if none is known
	loc  *time.Location
}

// title is the first heading; the cells under it are the entry numbers.
const title, version = "brineyard journal", "1"

// columns are the columns in the order of the file. The check stands behind them.
var columns = []column{
	counter(title+" "+version, func(e *Entry) *int { return &e.Number }),
	{name: "time", format: formatTime, parse: parseTime, importCell: importTime},
	{name: "kind", format: formatKind, parse: parseKind, importCell: importKind},
	text("tank", func(e *Entry) *string { return &e.Tank }),
	text("from", func(e *Entry) *string { return &e.From }),
	text("liquid", func(e *Entry) *string { return &e.Liquid }),
	volume("volume", func(e *Entry) **quantity.Volume { return &e.Volume }),
	strength("nacl", func(e *Entry) **quantity.Strength { return &e.NaCl }),
	strength("kcl", func(e *Entry) **quantity.Strength { return &e.KCl }),
	strength("cacl2", func(e *Entry) **quantity.Strength { return &e.CaCl2 }),
	strength("mgcl2", func(e *Entry) **quantity.Strength { return &e.MgCl2 }),
	amount("temp", [2]string{"F", "C"}, func(e *Entry) **quantity.Temperature { return &e.Temp }, inUnit, temperatureOf, quantity.ParseTemperature),
	text("scale", func(e *Entry) *string { return &e.Scale }),
	amount("reading", [2]string{}, func(e *Entry) **float64 { return &e.Reading }, sameNumber, fromNumber[float64], parsePlain),
	amount("salt", [2]string{"lb", "kg"}, func(e *Entry) **quantity.Mass { return &e.Salt }, inUnit, massOf, quantity.ParseMass),
	volume("water", func(e *Entry) **quantity.Volume { return &e.Water }),
	text("operator", func(e *Entry) *string { return &e.Operator }),
	text("truck", func(e *Entry) *string { return &e.Truck }),
	text("route", func(e *Entry) *string { return &e.Route }),
	amount("cost", [2]string{}, func(e *Entry) **quantity.Money { return &e.Cost }, inUnit, fromNumber[quantity.Money], quantity.ParseMoney),
	counter("cancels", func(e *Entry) *int { return &e.Cancels }),
	text("note", func(e *Entry) *string { return &e.Note }),
}

// heading is the column's name with its unit in brackets.
func (c *column) heading(sys quantity.System) string {
	if c.units[sys] == "" {
		return c.name
	}
	return c.name + " [" + c.units[sys] + "]"
}

// counter is a column of entry numbers, 0 for none.
func counter(name string, field func(*Entry) *int) column {
	return column{
		name: name,
		format: func(e *Entry, _ quantity.System) string {
			if *field(e) == 0 {
				return ""
			}
			return strconv.Itoa(*field(e))
		},
		parse: func(e *Entry, _ *decoder, cell string) (err error) {
			*field(e), err = entryNumber(cell)
			return err
		},
	}
}

// text is a column of words.
func text(name string, field func(*Entry) *string) column {
	return column{
		name:   name,
		format: func(e *Entry, _ quantity.System) string { return encodeText(*field(e)) },
		parse: func(e *Entry, d *decoder, cell string) error {
			t, err := decodeText(cell)
			*field(e) = d.intern(t)
			return err
		},
		importCell: func(e *Entry, c foreignCell) error {
			*field(e) = c.text
			return nil
		},
	}
}

func formatTime(e *Entry, _ quantity.System) string {
	t := e.Time
	if _, offset := t.Zone(); offset%60 != 0 {
		t = t.UTC() // the form has no seconds in its zone
	}
	return t.Format(time.RFC3339)
}

func parseTime(e *Entry, _ *decoder, cell string) error {
	t, err := time.Parse(time.RFC3339, cell)
	if err != nil {
		return fmt.Errorf("%s is no time with a zone; allowed: one like 2026-01-15T06:40:00-05:00", words.Quoted(cell))
	}
	e.Time = t
	return nil
}

// importTime reads a time of another file, month first where it is written with
// slashes; one without a zone is of the place.
func importTime(e *Entry, c foreignCell) error {
	for _, layout := range []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02", "1/2/2006 15:04", "1/2/2006", "1/2/06 15:04", "1/2/06", "1/2/2006 3:04 PM", "1/2/06 3:04 PM"} {
		if t, err := time.ParseInLocation(layout, c.text, c.loc); err == nil {
			e.Time = t
			return nil
		}
	}
	return fmt.Errorf("%s is no time; allowed: one like 2026-01-15 06:40 or 1/15/2026 6:40 (month first), or a date alone", words.Quoted(c.text))
}

func formatKind(e *Entry, _ quantity.System) string { return encodeText(string(e.Kind)) }

func parseKind(e *Entry, _ *decoder, cell string) (err error) {
	e.Kind, err = kindNamed(cell, Kinds())
	return err
}

// importKind takes all kinds but undo, which would need the numbers of another file.
func importKind(e *Entry, c foreignCell) (err error) {
	all := Kinds()
	e.Kind, err = kindNamed(strings.ToLower(c.text), all[:len(all)-1])
	return err
}
