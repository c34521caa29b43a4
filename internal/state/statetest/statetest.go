// Package statetest makes the yard and the entries of the tests of state and season.
package statetest

import (
	"strconv"
	"strings"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Yard has the numbers of the demo yard that a season needs.
func Yard() *yard.Yard {
	return &yard.Yard{
		Pile:   yard.Pile{Quality: yard.RockSalt{Purity: 0.962, Moisture: 0.016}},
		Supply: yard.Supply{Temperature: quantity.Fahrenheit(46)},
		Liquids: []yard.Liquid{
			{Liquid: balance.Liquid{Name: "cal31", Composition: solution.Composition{CaCl2: 0.31}}},
		},
		Tanks: []yard.Tank{
			{Name: "mixer", Mixing: true, Capacity: 1350 * quantity.Gallon},
			{Name: "north", Capacity: 5200 * quantity.Gallon},
			{Name: "south", Capacity: 2700 * quantity.Gallon},
		},
		CleanEvery: 42000 * quantity.Gallon,
	}
}

// Noon is the time of the first of Rows.
func Noon() time.Time { return time.Date(2026, 1, 10, 12, 0, 0, 0, time.UTC) }

// Rows makes entries of lines like "batch tank=mixer volume=1000gal nacl=23.3%", an hour
// between each and the next.
func Rows(lines ...string) []journal.Entry {
	entries := make([]journal.Entry, len(lines))
	for i, line := range lines {
		kind, cells, _ := strings.Cut(line, " ")
		e := &entries[i]
		e.Number, e.Kind, e.Time = i+1, journal.Kind(kind), Noon().Add(time.Duration(i)*time.Hour)
		for _, cell := range strings.Fields(cells) {
			name, value, _ := strings.Cut(cell, "=")
			if err := set(e, name, value); err != nil {
				panic(cell + ": " + err.Error()) // the test's own fault
			}
		}
	}
	return entries
}

// set fills a column of an entry.
func set(e *journal.Entry, name, value string) error {
	words := map[string]*string{
		"tank": &e.Tank, "from": &e.From, "liquid": &e.Liquid, "scale": &e.Scale,
		"operator": &e.Operator, "truck": &e.Truck, "route": &e.Route, "line": &e.Line, "note": &e.Note,
	}
	if word := words[name]; word != nil {
		*word = value
		return nil
	}
	return map[string]func() error{
		"volume":   func() error { return parse(&e.Volume, quantity.ParseVolume, value) },
		"water":    func() error { return parse(&e.Water, quantity.ParseVolume, value) },
		"salt":     func() error { return parse(&e.Salt, quantity.ParseMass, value) },
		"nacl":     func() error { return parse(&e.NaCl, quantity.ParseStrength, value) },
		"kcl":      func() error { return parse(&e.KCl, quantity.ParseStrength, value) },
		"cacl2":    func() error { return parse(&e.CaCl2, quantity.ParseStrength, value) },
		"mgcl2":    func() error { return parse(&e.MgCl2, quantity.ParseStrength, value) },
		"temp":     func() error { return parse(&e.Temp, quantity.ParseTemperature, value) },
		"cost":     func() error { return parse(&e.Cost, quantity.ParseMoney, value) },
		"purity":   func() error { return parse(&e.Purity, quantity.ParseStrength, value) },
		"moisture": func() error { return parse(&e.Moisture, quantity.ParseStrength, value) },
		"hours":    func() error { return parse(&e.Hours, quantity.ParseDuration, value) },
		"distance": func() error { return parse(&e.Distance, quantity.ParseLength, value) },
		"due":      func() error { return parse(&e.Due, day, value) },
		"reading":  func() error { return parse(&e.Reading, number, value) },
	}[name]()
}

func parse[Q any](into **Q, read func(string) (Q, bool, error), text string) error {
	q, _, err := read(text)
	*into = &q
	return err
}

func number(text string) (float64, bool, error) {
	x, err := strconv.ParseFloat(text, 64)
	return x, true, err
}

func day(text string) (time.Time, bool, error) {
	t, err := time.Parse(time.DateOnly, text)
	return t, false, err
}
