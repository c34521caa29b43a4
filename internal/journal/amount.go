package journal

import (
	"errors"
	"regexp"
	"strings"
	"sync"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// amount is a column of numbers in a unit: toUnit and fromUnit convert between a quantity
// and the number, and parse reads a cell of another file.
func amount[Q ~float64](
	name string, units [2]string, field func(*Entry) **Q,
	toUnit func(Q, quantity.System) float64, fromUnit func(float64, quantity.System) Q, parse func(string) (Q, bool, error),
) column {
	return column{
		name:  name,
		units: units,
		format: func(e *Entry, sys quantity.System) string {
			if *field(e) == nil {
				return ""
			}
			return numberText(toUnit(**field(e), sys))
		},
		parse: func(e *Entry, d *decoder, cell string) error {
			x, err := plainNumber(cell)
			if err == nil {
				q := fromUnit(x, d.sys)
				*field(e) = &q
			}
			return err
		},
		importCell: func(e *Entry, c foreignCell) error {
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
		},
	}
}

// thousands are set off by commas in what a spreadsheet shows. It is made when a file
// is imported, since it takes longer than most commands.
var thousands = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\$?\d{1,3}(,\d{3})+(\.\d+)?( ?[a-zA-Z%]+)?$`)
})

// withUnit gives a number that stands alone its unit.
func (c foreignCell) withUnit() string {
	if thousands().MatchString(c.text) {
		c.text = strings.ReplaceAll(c.text, ",", "")
	}
	if c.text != "" && strings.ContainsRune("0123456789.", rune(c.text[len(c.text)-1])) {
		return c.text + c.unit
	}
	return c.text
}

func volume(name string, field func(*Entry) **quantity.Volume) column {
	return amount(name, [2]string{"gal", "L"}, field, inUnit, volumeOf, quantity.ParseVolume)
}

func strength(name string, field func(*Entry) **quantity.Strength) column {
	fromPercent := func(x float64, _ quantity.System) quantity.Strength { return quantity.Strength(x / 100) }
	return amount(name, [2]string{"%", "%"}, field, inUnit, fromPercent, quantity.ParseStrength)
}

// inUnit is the full number that a quantity has in a system of units.
func inUnit[Q quantity.Quantity](q Q, sys quantity.System) float64 { return q.In(sys).Value }

func volumeOf(x float64, sys quantity.System) quantity.Volume {
	if sys == quantity.Metric {
		return quantity.Volume(x) * quantity.Liter
	}
	return quantity.Volume(x) * quantity.Gallon
}

func massOf(x float64, sys quantity.System) quantity.Mass {
	if sys == quantity.Metric {
		return quantity.Mass(x) * quantity.Kilogram
	}
	return quantity.Mass(x) * quantity.Pound
}

func temperatureOf(x float64, sys quantity.System) quantity.Temperature {
	if sys == quantity.Metric {
		return quantity.Celsius(x)
	}
	return quantity.Fahrenheit(x)
}

// A reading and a cost are the same number in every system.

func sameNumber(x float64, _ quantity.System) float64 { return x }

func fromNumber[Q ~float64](x float64, _ quantity.System) Q { return Q(x) }

func parsePlain(text string) (float64, bool, error) {
	x, err := plainNumber(text)
	return x, true, err
}
