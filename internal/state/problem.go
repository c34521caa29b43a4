package state

import (
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Problem is an entry that does not fit those before it. It counts as far as it can.
type Problem struct {
	Entry int
	Text  string // a format for Args
	Args  []quantity.Quantity
	// Cannot is set where the entry tells what cannot be: more out of a vessel than stands in
	// it, or more into it than it takes.
	Cannot  bool
	LeftOut bool // the entry changed nothing
}

// MostProblems is how many problems are kept: a journal of nothing else must not fill the
// memory.
const MostProblems = 2000

func (s *State) problem(e *journal.Entry, text string, args ...quantity.Quantity) {
	s.report(Problem{Entry: e.Number, Text: text, Args: args})
}

// cannot is a problem of an entry that tells what cannot be.
func (s *State) cannot(e *journal.Entry, text string, args ...quantity.Quantity) {
	s.report(Problem{Entry: e.Number, Text: text, Args: args, Cannot: true})
}

// leaveOut is the problem of an entry that changes nothing.
func (s *State) leaveOut(e *journal.Entry, text string) {
	s.effect.LeftOut = true
	s.report(Problem{Entry: e.Number, Text: text, LeftOut: true})
}

func (s *State) report(p Problem) {
	s.effect.Problems = append(s.effect.Problems, p)
	if len(s.Problems) == MostProblems {
		s.Unlisted++
		return
	}
	s.Problems = append(s.Problems, p)
}
