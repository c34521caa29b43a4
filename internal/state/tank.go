package state

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Tank is a tank as the entries so far leave it.
type Tank struct {
	Name string
	balance.Vessel
	// Known is set once an entry has said what was in it; until then it is taken as
	// empty.
	Known   bool
	Reading *TankReading // the last; nil for none
	First   time.Time    // of its batches; zero for none
	// Since the last cleaning, or the first entry:
	Made       quantity.Volume
	Insolubles quantity.Mass // of the salt put in
	Cleanings  []Cleaning    // past ones, the last at the end
}

// Volume returns what is in the tank at the temperature of measured volumes.
func (t *Tank) Volume() quantity.Volume {
	v, err := t.Vessel.Volume(measuredAt)
	if err != nil {
		return 0
	}
	return v
}

// set makes the tank hold a volume of a liquid.
func (t *Tank) set(l balance.Liquid, v quantity.Volume) {
	if held, err := balance.Fill(l, v, measuredAt); err == nil {
		t.Vessel, t.Known = held, true
	}
}

// add mixes in what another vessel holds.
func (t *Tank) add(v balance.Vessel) {
	t.Add(v.Liquid, v.Mass)
	t.Known = true
}
