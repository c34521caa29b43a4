package state

import (
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// PileCount is the last count of the pile beside what the entries said then.
type PileCount struct {
	Entry             int
	Counted, Expected quantity.Mass
}

// movePile adds salt of the pile's quality to the pile, or takes it off.
func (s *State) movePile(e *journal.Entry, c Class, salt quantity.Mass) {
	before := s.Pile
	s.Pile += salt
	s.effect.Pile = PileMove{Class: c, Mass: salt, Salt: s.PileSalt, Known: s.PileKnown}
	s.PileSaid = saidBy(e)
	if allowed := -slack * before; s.PileKnown && before >= 0 && s.Pile < min(allowed, 0) {
		s.problem(e, "the pile held %v by the entries, and %v were taken off it: a delivery or a count is missing", before, -salt)
	}
}

// deliverSalt adds salt to the pile, which becomes the mix of both.
func (s *State) deliverSalt(e *journal.Entry) {
	salt := s.yard.RockSalt()
	if e.Purity != nil {
		salt.Purity = *e.Purity
	}
	if e.Moisture != nil {
		salt.Moisture = *e.Moisture
	}
	if salt.Check() != nil {
		s.problem(e, "no rock salt has that purity or moisture: taken as the yard file has it")
		salt = s.yard.RockSalt()
	}
	s.PileSalt = mixed(s.PileSalt, max(0, s.Pile), salt, *e.Salt)
	s.Pile += *e.Salt
	s.PileSaid = saidBy(e)
	s.effect.Pile = PileMove{Class: Delivered, Mass: *e.Salt, Salt: salt, Known: s.PileKnown}
	s.arrived("", float64(*e.Salt))
}

// mixed is the quality of two masses of salt together.
func mixed(a yard.RockSalt, ma quantity.Mass, b yard.RockSalt, mb quantity.Mass) yard.RockSalt {
	switch {
	case mb == 0 || a == b:
		return a
	case ma == 0:
		return b
	}
	water := ma.Times(a.Moisture) + mb.Times(b.Moisture)
	pure := float64(ma)*a.SodiumChloride() + float64(mb)*b.SodiumChloride()
	return yard.RockSalt{
		Purity:   quantity.Strength(pure / float64(ma+mb-water)),
		Moisture: quantity.Strength(water / (ma + mb)),
	}
}

// countPile takes the pile to what was found.
func (s *State) countPile(e *journal.Entry) {
	found := *e.Salt
	s.effect.Pile = PileMove{Class: Counted, Mass: found - s.Pile, Salt: s.PileSalt, Known: s.PileKnown, Counted: true}
	if s.PileKnown && s.PileSaid.ByJournal() {
		s.PileCount = &PileCount{Entry: e.Number, Counted: found, Expected: s.Pile}
	}
	s.Pile, s.PileKnown, s.PileSaid = found, true, saidBy(e)
}
