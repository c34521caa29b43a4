package bind

import (
	"fmt"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Standing is the yard as it stands, by the journal where there is one; nil where there is no
// yard file. A journal that cannot be read makes Fill fail.
func (s *Scope) Standing() *yard.Yard {
	if s.Yard == nil || s.Stands == nil {
		return s.Yard
	}
	now, err := s.Stands()
	if err != nil {
		s.failed = err
		return s.Yard
	}
	return now
}

// Entered takes a value that an entry of the journal has made what it is; nil is not known.
func Entered[Q quantity.Quantity](get func(*yard.Yard) (*Q, yard.Said)) Source[Q] {
	return func(_ string, s *Scope) (q Q, place Place, found bool) {
		now := s.Standing()
		if now == nil {
			return q, place, false
		}
		p, said := get(now)
		if p == nil || !said.ByJournal() {
			return q, place, false
		}
		return *p, Place{words: fmt.Sprintf("%s, entry %d: %v", now.Journal, said.Entry, (*p).In(s.System))}, true
	}
}
