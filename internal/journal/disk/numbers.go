package disk

import (
	"brineyard/internal/journal"
	"errors"
	"fmt"
	"maps"
	"slices"
)

// numberSet is a set of entry numbers, a bit each, in pages.
type numberSet map[int]*[64]uint64

const pageNumbers = 64 * 64

func (s numberSet) add(n int) {
	page := s[n/pageNumbers]
	if page == nil {
		page = new([64]uint64)
		s[n/pageNumbers] = page
	}
	page[n%pageNumbers/64] |= 1 << (n % 64)
}

func (s numberSet) has(n int) bool {
	page := s[n/pageNumbers]
	return page != nil && page[n%pageNumbers/64]>>(n%64)&1 == 1
}

// gaps lists the numbers from 1 to the highest that are not in the set.
func (s numberSet) gaps() []journal.Span {
	var out []journal.Span
	next := 1
	for _, at := range slices.Sorted(maps.Keys(s)) {
		for i := range pageNumbers {
			n := at*pageNumbers + i
			if s[at][i/64]>>(i%64)&1 == 0 {
				continue
			}
			if n > next {
				out = append(out, journal.Span{From: next, To: n - 1})
			}
			next = n + 1
		}
	}
	return out
}

// sequence watches the entry numbers.
type sequence struct {
	last int // of the row before
	seen numberSet
}

// admit tells whether a number was there before, what is wrong with its place, and which
// numbers were passed over.
func (s *sequence) admit(n int) (repeated bool, gap journal.Span, fault error) {
	expected := s.last + 1
	s.last = n
	switch {
	case s.seen.has(n):
		return true, journal.Span{}, errors.New("its number was there before, so it does not count")
	case n > expected:
		gap = journal.Span{From: expected, To: n - 1}
		fallthrough
	case n < expected:
		fault = fmt.Errorf("its number does not follow; expected %d", expected)
	}
	s.seen.add(n)
	return false, gap, fault
}
