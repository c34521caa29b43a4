package journal

import (
	"fmt"
	"strconv"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// column is a column of the file: it formats a cell from an entry, parses one into an
// entry. The table of columns drives header and rows.
type column struct {
	name   string
	units  [2]string // by system; empty for none
	format func(e *Entry, sys quantity.System) string
	parse  func(e *Entry, d *Decoder, cell string) error
}

// title and the version are the first heading; the cells under it are the entry numbers.
const title = "brineyard journal"

// columns are the columns in the order of the file. The check stands behind them.
var columns = []column{
	counter(title, func(e *Entry) *int { return &e.Number }),
	{name: "time", format: formatTime, parse: parseTime},
	{name: "kind", format: formatKind, parse: parseKind},
	text("tank", func(e *Entry) *string { return &e.Tank }),
	text("from", func(e *Entry) *string { return &e.From }),
	text("liquid", func(e *Entry) *string { return &e.Liquid }),
	volume("volume", func(e *Entry) **quantity.Volume { return &e.Volume }),
	strength("nacl", func(e *Entry) **quantity.Strength { return &e.NaCl }),
	strength("kcl", func(e *Entry) **quantity.Strength { return &e.KCl }),
	strength("cacl2", func(e *Entry) **quantity.Strength { return &e.CaCl2 }),
	strength("mgcl2", func(e *Entry) **quantity.Strength { return &e.MgCl2 }),
	amount("temp", [2]string{"F", "C"}, func(e *Entry) **quantity.Temperature { return &e.Temp }, inUnit, temperatureOf),
	text("scale", func(e *Entry) *string { return &e.Scale }),
	amount("reading", [2]string{}, func(e *Entry) **float64 { return &e.Reading }, sameNumber, fromNumber[float64]),
	amount("salt", [2]string{"lb", "kg"}, func(e *Entry) **quantity.Mass { return &e.Salt }, inUnit, massOf),
	volume("water", func(e *Entry) **quantity.Volume { return &e.Water }),
	text("operator", func(e *Entry) *string { return &e.Operator }),
	text("truck", func(e *Entry) *string { return &e.Truck }),
	text("route", func(e *Entry) *string { return &e.Route }),
	amount("cost", [2]string{}, func(e *Entry) **quantity.Money { return &e.Cost }, inUnit, fromNumber[quantity.Money]),
	counter("cancels", func(e *Entry) *int { return &e.Cancels }),
	text("note", func(e *Entry) *string { return &e.Note }),
	text("line", func(e *Entry) *string { return &e.Line }),
	text("ticket", func(e *Entry) *string { return &e.Ticket }),
	strength("purity", func(e *Entry) **quantity.Strength { return &e.Purity }),
	strength("moisture", func(e *Entry) **quantity.Strength { return &e.Moisture }),
	amount("hours", [2]string{"h", "h"}, func(e *Entry) **quantity.Duration { return &e.Hours }, inHours, fromHours),
	amount("distance", [2]string{"mi", "km"}, func(e *Entry) **quantity.Length { return &e.Distance }, inUnit, lengthOf),
	moment("due", func(e *Entry) **time.Time { return &e.Due }),
}

// heading is the column's name with its unit in brackets; the first tells the version.
func (c *column) heading(f Form) string {
	switch {
	case c.name == title:
		return fmt.Sprintf("%s %d", title, f.Version)
	case c.units[f.Units] == "":
		return c.name
	}
	return c.name + " [" + c.units[f.Units] + "]"
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
		parse: func(e *Entry, _ *Decoder, cell string) (err error) {
			*field(e), err = EntryNumber(cell)
			return err
		},
	}
}

// text is a column of words.
func text(name string, field func(*Entry) *string) column {
	return column{
		name:   name,
		format: func(e *Entry, _ quantity.System) string { return encodeText(*field(e)) },
		parse: func(e *Entry, d *Decoder, cell string) error {
			t, err := decodeText(cell)
			*field(e) = d.intern(t)
			return err
		},
	}
}

func formatTime(e *Entry, _ quantity.System) string { return timeText(e.Time) }

func timeText(t time.Time) string {
	if _, offset := t.Zone(); offset%60 != 0 {
		t = t.UTC() // the form has no seconds in its zone
	}
	return t.Format(time.RFC3339)
}

func parseTime(e *Entry, _ *Decoder, cell string) (err error) {
	e.Time, err = timeOf(cell)
	return err
}

func timeOf(cell string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, cell)
	switch {
	case err != nil && spreadsheetTime(cell):
		return t, ResavedError("times are written " + cell)
	case err != nil:
		return t, fmt.Errorf("%s is no time with a zone; allowed: one like 2026-01-15T06:40:00-05:00", words.Quoted(cell))
	}
	return t, nil
}

// moment is a column of times, nil for none.
func moment(name string, field func(*Entry) **time.Time) column {
	return column{
		name: name,
		format: func(e *Entry, _ quantity.System) string {
			if *field(e) == nil {
				return ""
			}
			return timeText(**field(e))
		},
		parse: func(e *Entry, d *Decoder, cell string) (err error) {
			t := target(d, field)
			*t, err = timeOf(cell)
			*field(e) = t
			return err
		},
	}
}

func formatKind(e *Entry, _ quantity.System) string { return encodeText(string(e.Kind)) }

func parseKind(e *Entry, d *Decoder, cell string) (err error) {
	e.Kind, err = KindNamed(cell, d.kinds)
	return err
}
