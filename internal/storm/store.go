package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/quantity"
)

// store is the brine in the storage tanks by volume. An empty tank swallows what lies below its suction before any of it
// is of use; such tanks are filled last, the one that swallows least first.
type store struct {
	usable quantity.Volume
	room   quantity.Volume // of the tanks that hold brine up to their suction
	opened int             // of the empty tanks
	below  quantity.Volume // the suction of the next empty tank, put in so far
}

// emptyTank is a storage tank in which nothing stands above the suction.
type emptyTank struct{ gap, room quantity.Volume }

// storage sums up the tanks as they stand.
func (y *stormYard) storage() (s store, empty []emptyTank) {
	for _, t := range y.tanks {
		if gap := t.gap(); gap > 0 {
			empty = append(empty, emptyTank{gap, t.room()})
			continue
		}
		s.usable += t.usable()
		s.room += t.room()
	}
	slices.SortStableFunc(empty, func(a, b emptyTank) int {
		return cmp.Or(cmp.Compare(a.gap, b.gap), cmp.Compare(b.room, a.room))
	})
	return s, empty
}

// space is all that the tanks can take.
func (s *store) space(empty []emptyTank) quantity.Volume {
	v := s.room - s.below
	for _, t := range empty[s.opened:] {
		v += t.room
	}
	return v
}

// put stores a volume for which there is space, and returns how much of it no pump reaches.
func (s *store) put(v quantity.Volume, empty []emptyTank) (swallowed quantity.Volume) {
	s.into(&v)
	for v > 0 && s.opened < len(empty) {
		t := empty[s.opened]
		part := min(v, t.gap-s.below)
		s.below += part
		swallowed += part
		if v -= part; s.below >= t.gap {
			s.opened++
			s.below = 0
			s.room += t.room - t.gap
			s.into(&v)
		}
	}
	return swallowed
}

func (s *store) into(v *quantity.Volume) {
	part := min(*v, s.room)
	s.usable += part
	s.room -= part
	*v -= part
}

// take draws a volume that is there, but for rounding.
func (s *store) take(v quantity.Volume) {
	v = min(v, s.usable)
	s.usable -= v
	s.room += v
}
