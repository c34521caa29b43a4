package state

import (
	"brineyard/internal/journal"
	"brineyard/internal/yard"
)

// weaken notes that a line was rinsed: what runs through it first is water. Apply forgets it at
// the next entry with that line.
func (s *State) weaken(e *journal.Entry) {
	s.lines[e.Line] = yard.WeakLine{Name: e.Line, Said: saidBy(e)}
}
