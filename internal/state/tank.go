package state

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Tank is a tank as the entries so far leave it.
type Tank struct {
	Name string
	balance.Vessel
	// Known is set once an entry has said what was in it; until then it is taken as
	// empty.
	Known   bool
	Said    yard.Said
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

// said notes which entry changed the tank last. What contradicts the entries stays in doubt
// until the tank is counted, filled with a batch or cleaned.
func (t *Tank) said(e *journal.Entry) {
	doubt := t.Said.Doubt
	switch {
	case e.Kind == journal.Count, e.Kind == journal.Batch, e.Kind == journal.Clean:
		doubt = nil
	case e.Kind == journal.Reading && t.Reading != nil && t.Reading.Entry == e.Number && t.Reading.Drifted():
		doubt = &yard.Doubt{Entry: e.Number, Read: t.Reading.True, Expected: t.Reading.Expected}
	}
	t.Said = yard.Said{Entry: e.Number, Time: e.Time, Doubt: doubt}
}
