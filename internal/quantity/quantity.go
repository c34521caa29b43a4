// Package quantity holds the typed quantities of a brine yard. A value is in SI
// (m3, kg, K, s, mass fraction); the units that people write and read exist
// here, in parsing and in In, and nowhere else.
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

// String returns the name by which the user asks for the system.
func (s System) String() string {
	if s == Metric {
		return "metric"
	}
	return "us"
}

// Shown is a quantity as a user meets it: the full-precision value in the unit,
// and the digits that are worth reading.
type Shown struct {
	Value float64
	Unit  string // empty for a pure number
	Words string // instead of digits, where a quantity is no number
	rule  func(float64) string
}

// Digits returns the digits worth reading. They are worked out when they are asked for,
// since many numbers go to programs.
func (s Shown) Digits() string {
	if s.Words != "" || s.rule == nil {
		return s.Words
	}
	return s.rule(s.Value)
}

// String returns digits and unit, as they are written in a sentence.
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
