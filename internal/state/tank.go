package state

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Tank is a tank as the entries so far leave it.
type Tank struct {
	Stock
	// OnFloor is undissolved salt on its bed, as delivered; at least so much where FloorKnown
	// is not set.
	OnFloor    quantity.Mass
	FloorKnown bool         // by the yard file, a count or a cleaning
	FloorSaid  yard.Said    // of OnFloor
	Reading    *TankReading // the last; nil for none
	First      time.Time    // of its batches; zero for none
	// Since the last cleaning, or the first entry:
	Made       quantity.Volume
	Insolubles quantity.Mass // of the salt put in
	// Cleanings are the last past ones that came after a batch, the last at the end.
	Cleanings []Cleaning
	Cleaned   int             // how many there were in all
	MadeInAll quantity.Volume // since the first entry

	floorTakes quantity.Mass // salt; 0 for unknown
	open       openBatch
	run        yard.Run   // the mixing that the last reading belongs to
	runs       []yard.Run // the last ones before it
	passages   []yard.Passage
}

// newTank is a tank as the yard file describes it. Where the file does not say how strong the
// brine in it is, it is reckoned as on target, and not sure.
func newTank(y yard.Tank, target quantity.Strength) *Tank {
	t := &Tank{Stock: Stock{Name: y.Name, takes: y.Capacity}, OnFloor: y.Bed, FloorKnown: y.Bed > 0, floorTakes: y.BedCapacity}
	t.Liquid.Name = balance.BrineName
	switch {
	case y.Liquid != nil && y.Contents != nil:
		t.set(*y.Liquid, *y.Contents)
	case y.Liquid != nil:
		t.setLiquid(*y.Liquid)
	case y.Contents != nil:
		t.set(balance.SaltBrine(target), *y.Contents)
		t.Sure = *y.Contents == 0
	}
	return t
}

// tank finds a tank, or begins one of which nothing is known.
func (s *State) tank(name string) *Tank {
	t := s.tanks[name]
	if t == nil {
		t = newTank(yard.Tank{Name: name}, 0)
		s.tanks[name] = t
	}
	return t
}

// settled takes what a reading contradicted as settled.
func (t *Stock) settled() { t.Said.Doubt = nil }
