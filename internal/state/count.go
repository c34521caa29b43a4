package state

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// countAllowed is the part of what is in a tank by which a count may differ from the
// entries before it is flagged: a level is read to a mark or two. Common practice, no
// source.
const countAllowed = 0.05

// count takes a tank, its bed, a truck, a liquid beside the tanks or the pile to what was found.
func (s *State) count(e *journal.Entry) {
	l, known := s.liquidOf(e)
	switch {
	case e.Salt != nil && e.Truck == "" && (e.Tank == journal.Pile || e.Tank == ""):
		s.countPile(e)
	case e.Salt != nil && e.Truck == "":
		s.countBed(e)
	case e.Volume == nil:
		s.leaveOut(e, "a count without a volume: left out")
	case composed(e) && !known:
		s.leaveOut(e, "a count of a liquid that cannot be: left out")
	case e.Truck != "":
		s.countTruck(e, l, known)
	case e.Tank != "":
		s.countStock(e, &s.tank(e.Tank).Stock, l, known)
	case e.Liquid != "" && known:
		s.countStock(e, s.besideOf(e.Liquid, l), l.Named(e.Liquid), composed(e))
	default:
		s.leaveOut(e, "a count that does not say where or of what: left out")
	}
}

// countStock takes a stock to the volume that was found, and to the liquid if the row says it.
func (s *State) countStock(e *journal.Entry, t *Stock, l balance.Liquid, said bool) {
	if !said && !t.told && *e.Volume > 0 {
		s.leaveOut(e, "a count of "+t.Name+" that does not say what is in it: left out")
		return
	}
	s.touch(t)
	had, before, was, class := t.Volume(), t.Masses(), t.Liquid.Name, Found
	if t.Known {
		class = Counted
		// The yard file is as old as it may be: a count that departs from it alone is no riddle.
		if t.Said.ByJournal() && math.Abs(float64(*e.Volume-had)) > countAllowed*float64(max(had, *e.Volume)) {
			s.problem(e, t.Name+" was counted at %v where the entries leave %v: look for what was not recorded", *e.Volume, had)
		}
	}
	t.found(l, said, *e.Volume)
	if now := t.Liquid.Name; now == was {
		s.part(class, now, *e.Volume-had, t.Masses().Minus(before))
	} else {
		s.part(class, was, -had, before.Times(-1))
		s.part(class, now, *e.Volume, t.Masses())
	}
	t.settled()
	s.fits(e, t)
}

// found sets what a count found. Without a strength the liquid is what it was; of nothing, there
// is no doubt what it is.
func (t *Stock) found(l balance.Liquid, said bool, v quantity.Volume) {
	if said {
		t.set(l, v)
		return
	}
	t.setVolume(v)
	t.Sure = t.Sure || v == 0
}

// countTruck sets what a truck still holds.
func (s *State) countTruck(e *journal.Entry, l balance.Liquid, said bool) {
	k := s.truck(e.Truck)
	if !said && !k.told && *e.Volume > 0 {
		s.leaveOut(e, "a count of "+k.Name+" that does not say what is in it: left out")
		return
	}
	k.found(l, said, *e.Volume)
	k.counted, k.sources = true, k.sources[:0]
	k.Said = saidBy(e)
	s.fits(e, &k.Stock)
}

// countBed sets the salt on the bed of a tank.
func (s *State) countBed(e *journal.Entry) {
	if described, known := s.yard.Tank(e.Tank); known && !described.Mixing {
		s.leaveOut(e, "a count of salt in "+e.Tank+", which has no bed: left out")
		return
	}
	t := s.tank(e.Tank)
	if t.FloorKnown {
		s.effect.Bed = quantity.Mass(float64(*e.Salt-t.OnFloor) * s.PileSalt.SodiumChloride())
	}
	t.OnFloor, t.FloorKnown, t.FloorSaid = *e.Salt, true, saidBy(e)
	s.touch(&t.Stock)
	if t.floorTakes > 0 && t.OnFloor > t.floorTakes*(1+slack) {
		s.cannot(e, "the bed of "+t.Name+" was counted at %v of salt, and takes %v", t.OnFloor, t.floorTakes)
	}
}
