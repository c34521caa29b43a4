package journal

import (
	"brineyard/internal/quantity"
)

// amount is a column of numbers in a unit: toUnit and fromUnit convert between a quantity
// and the number.
func amount[Q ~float64](
	name string, units [2]string, field func(*Entry) **Q,
	toUnit func(Q, quantity.System) float64, fromUnit func(float64, quantity.System) Q,
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
		parse: func(e *Entry, d *Decoder, cell string) error {
			x, err := Number(cell)
			if err != nil && decimalComma(cell) {
				return ResavedError("numbers are written " + cell)
			}
			if err == nil {
				q := target(d, field)
				*q = fromUnit(x, d.Units)
				*field(e) = q
			}
			return err
		},
	}
}

// target is where the decoder puts a value: that of the entry before, or a new one.
func target[T any](d *Decoder, field func(*Entry) **T) *T {
	if !d.Reuse {
		return new(T)
	}
	kept := field(&d.spare)
	if *kept == nil {
		*kept = new(T)
	}
	return *kept
}

func volume(name string, field func(*Entry) **quantity.Volume) column {
	return amount(name, [2]string{"gal", "L"}, field, inUnit, volumeOf)
}

func strength(name string, field func(*Entry) **quantity.Strength) column {
	fromPercent := func(x float64, _ quantity.System) quantity.Strength { return quantity.Strength(x / 100) }
	return amount(name, [2]string{"%", "%"}, field, inUnit, fromPercent)
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

func lengthOf(x float64, sys quantity.System) quantity.Length {
	if sys == quantity.Metric {
		return quantity.Length(x * 1000)
	}
	return quantity.Length(x) * quantity.Mile
}

const hour = 60 * quantity.Minute

func inHours(d quantity.Duration, _ quantity.System) float64 { return float64(d / hour) }

func fromHours(x float64, _ quantity.System) quantity.Duration {
	return quantity.Duration(x) * hour
}

// A reading and a cost are the same number in every system.

func sameNumber(x float64, _ quantity.System) float64 { return x }

func fromNumber[Q ~float64](x float64, _ quantity.System) Q { return Q(x) }
