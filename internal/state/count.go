package state

import (
	"math"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// countAllowed is the part of what is in a tank by which a count may differ from the
// entries before it is flagged: a level is read to a mark or two. Common practice, no
// source.
const countAllowed = 0.05

// PileCount is the last count of the pile beside what the entries said then.
type PileCount struct {
	Entry             int
	Counted, Expected quantity.Mass
}

// count takes a tank, or the pile, to what was found.
func (s *State) count(e *journal.Entry) Effect {
	if e.Salt != nil && (e.Tank == journal.Pile || e.Tank == "") {
		if s.PileKnown {
			s.PileCount = &PileCount{Entry: e.Number, Counted: *e.Salt, Expected: s.Pile}
		}
		s.Pile, s.PileKnown = *e.Salt, true
		return Effect{Counted: e.Salt}
	}
	if e.Volume == nil {
		s.problem(e, "a count without a volume: left out")
		return Effect{}
	}
	t := s.tank(e.Tank)
	if had := t.Volume(); t.Known && math.Abs(float64(*e.Volume-had)) > countAllowed*float64(max(had, *e.Volume)) {
		s.problem(e, t.Name+" was counted at %v where the entries leave %v: look for what was not recorded", *e.Volume, had)
	}
	before := t.Masses()
	l, known := s.liquidOf(e)
	switch {
	case known:
		t.set(l, *e.Volume)
	case t.Known && t.Mass > 0 || *e.Volume == 0:
		t.set(t.Liquid, *e.Volume)
	default:
		s.problem(e, "a count of "+t.Name+" that does not say what is in it: left out")
	}
	return Effect{Into: t.Masses().Minus(before)}
}
