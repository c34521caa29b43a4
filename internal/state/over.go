package state

import (
	"slices"

	"brineyard/internal/yard"
)

// Over is the yard as it stands: what the file says of it, with what the entries have made of
// that. The yard itself is left alone.
func (s *State) Over(y *yard.Yard) *yard.Yard {
	now := *y
	now.Tanks = slices.Clone(y.Tanks)
	for i := range now.Tanks {
		t := &now.Tanks[i]
		stands, named := s.tanks[t.Name]
		if !named || !stands.Known {
			continue
		}
		held, liquid := stands.Volume(), stands.Liquid
		t.Contents, t.Liquid, t.Said = &held, &liquid, stands.Said
	}
	if s.PileKnown {
		pile := s.Pile
		now.Pile.OnHand, now.Pile.Said = &pile, s.PileSaid
	}
	return &now
}
