package state

import (
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// effects tell of each kind of entry what it does. A kind that is missing does nothing.
var effects = map[journal.Kind]func(*State, *journal.Entry){
	journal.Batch:      (*State).batch,
	journal.Reading:    (*State).read,
	journal.Correction: (*State).correct,
	journal.Transfer:   (*State).transfer,
	journal.Load:       (*State).load,
	journal.Unload:     (*State).unload,
	journal.Delivery:   (*State).deliver,
	journal.Order:      (*State).order,
	journal.Spill:      func(s *State, e *journal.Entry) { s.gone(e, Spilled) },
	journal.Sale:       func(s *State, e *journal.Entry) { s.gone(e, Sold) },
	journal.Loan:       func(s *State, e *journal.Entry) { s.gone(e, Lent) },
	journal.Gift:       func(s *State, e *journal.Entry) { s.gone(e, Given) },
	journal.Clean:      (*State).clean,
	journal.Rinse:      (*State).rinse,
	journal.Count:      (*State).count,
}

// Apply takes an entry into account. Entries come in the order of their times, without those
// that were taken back. The effect holds until the next entry; of the entry nothing is kept.
func (s *State) Apply(e *journal.Entry) *Effect {
	s.Entries++
	s.effect.reset()
	s.moved = s.moved[:0]
	if effect := effects[e.Kind]; effect != nil {
		if senseless(e) {
			s.leaveOut(e, "an amount that no yard handles: left out")
		} else {
			effect(s, e)
			s.settle(e)
		}
	}
	if s.effect.LeftOut {
		s.LeftOut++
	} else if e.Line != "" && e.Kind != journal.Rinse {
		delete(s.lines, e.Line)
	}
	return &s.effect
}

// The most that an entry may move. Far beyond any yard, but no sum of such amounts overflows.
const (
	mostVolume = 1e5 // m3
	mostMass   = 1e9 // kg
)

// senseless tells whether an amount is below nothing, or beyond every yard; or the place is no
// place for a liquid.
func senseless(e *journal.Entry) bool {
	beyond := func(v *quantity.Volume) bool { return v != nil && !(*v >= 0 && *v <= mostVolume) }
	salt := e.Salt != nil && !(*e.Salt >= 0 && *e.Salt <= mostMass)
	onPile := (e.Volume != nil || e.Water != nil) && (e.Tank == journal.Pile || e.From == journal.Pile)
	return beyond(e.Volume) || beyond(e.Water) || salt || onPile
}

func saidBy(e *journal.Entry) yard.Said { return yard.Said{Entry: e.Number, Time: e.Time} }
