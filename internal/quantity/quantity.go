// Package quantity holds the typed quantities of a brine yard. A value is in SI
// (m3, kg, K, s, mass fraction). Parsing and In convert from and to the units that
// people use; calculations are in SI.
package quantity

import (
	"errors"
	"strings"
)

// System is a set of units for output.
type System int

// The systems of units.
const (
	US System = iota
	Metric
)

// String returns the name that ParseSystem reads.
func (s System) String() string {
	if s == Metric {
		return "metric"
	}
	return "us"
}

// Shown is a quantity in a unit of the user: the value in full precision, and the
// digits that are worth reading.
type Shown struct {
	Value float64
	Unit  string // empty for a pure number
	Words string // shown in place of the digits, unless empty
	rule  func(float64) string
	// spaced sets off thousands by a space in place of a comma, as a metric crew writes them.
	spaced bool
}

// Digits returns the digits worth reading. It rounds only when it is called, because
// many values go to programs and need no digits.
func (s Shown) Digits() string {
	if s.Words != "" || s.rule == nil {
		return s.Words
	}
	digits := s.group(s.rule(s.Value))
	if strings.Trim(digits, "-0.") == "" {
		return "0" // nothing is written one way
	}
	return digits
}

// Fixed returns a value with a number of decimals, grouped as the quantity is.
func (s Shown) Fixed(x float64, decimals int) string { return s.group(Fixed(x, decimals)) }

func (s Shown) group(digits string) string {
	if s.spaced {
		return strings.ReplaceAll(digits, ",", " ")
	}
	return digits
}

// Decimals returns how many decimals the quantity has where it has the most: those of a value
// with many, by the rule of its kind.
func (s Shown) Decimals(like float64) int {
	if s.rule == nil {
		return 0
	}
	return Decimals(s.rule(like))
}

// String returns digits and unit as a sentence has them.
func (s Shown) String() string {
	switch {
	case s.Unit == "", s.Unit == "%", s.Unit[0] == '/':
		return s.Digits() + s.Unit
	}
	return s.Digits() + " " + s.Unit
}

// Quantity is anything that can be shown in a system of units.
type Quantity interface{ In(System) Shown }

// Units in SI.
const (
	Gallon Volume = 3.785411784e-3 // US liquid gallon, exact
	Liter  Volume = 1e-3

	Pound    Mass = 0.45359237 // avoirdupois, exact
	Kilogram Mass = 1

	PoundPerGallon = Density(float64(Pound) / float64(Gallon))

	GallonPerMinute = Flow(float64(Gallon) / 60)
	LiterPerMinute  = Flow(float64(Liter) / 60)

	Minute Duration = 60
)

const (
	shortTon      = 2000 * Pound
	zeroCelsius   = 273.15
	fahrenheitOne = 5.0 / 9
)

// ParseSystem reads the name of a system of units.
func ParseSystem(text string) (System, error) {
	for _, s := range []System{US, Metric} {
		if strings.EqualFold(text, s.String()) {
			return s, nil
		}
	}
	return US, errors.New("unknown units; allowed: us, metric")
}
