package drill

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/quantity"
)

// sketch is a problem that may yet turn out unfit.
type sketch struct {
	Problem
	// hand is the answer in the user's unit, as a pocket calculator finds it from
	// the numbers that the question shows; not for words.
	hand float64
}

// The distances that keep answers apart, in tolerances.
const (
	fromRight = 3.0 // of a mistake from the right answer
	between   = 2.0 // of mistakes from one another
	// handFit is how near the printed numbers must lead, and printFit how near the
	// printed answer must be, so that neither uses up the tolerance.
	handFit, printFit = 0.4, 0.5
)

// settle reports whether the numbers make a problem, and drops the mistakes that
// cannot be told from one that stands before them.
func (s *sketch) settle() bool {
	if s.Answer.Kind == KindWord {
		s.Mistakes = slices.DeleteFunc(s.Mistakes, func(m Mistake) bool {
			return m.Answer == s.Answer.Value || !slices.Contains(s.Answer.Words, string(m.Answer.(Word)))
		})
	} else if !s.numbersFit() {
		return false
	}
	var kept []Mistake
	for _, m := range s.Mistakes {
		if !slices.ContainsFunc(kept, func(k Mistake) bool { return s.Answer.alike(k, m) }) {
			kept = append(kept, m)
		}
	}
	s.Mistakes = kept
	return len(kept) > 0
}

// numbersFit checks the answer against the hand's and the printed one, and the
// mistakes against it.
func (s *sketch) numbersFit() bool {
	a := s.Answer
	shown := a.Value.In(s.System)
	if !(shown.Value > 0) || !s.near(shown, s.hand, handFit) || !s.near(shown, digits(shown), printFit) {
		return false
	}
	for _, m := range s.Mistakes {
		if x := si(m.Answer); !(x > 0) || math.IsInf(x, 0) || math.Abs(a.off(m.Answer, a.Value)) <= fromRight*a.Tolerance {
			return false
		}
	}
	return true
}

// near compares a number in the user's unit with the answer, in tolerances.
func (s *sketch) near(shown quantity.Shown, number, tolerances float64) bool {
	off := number/shown.Value - 1
	if s.Answer.Kind == KindStrength {
		off = (number - shown.Value) / 100
	}
	return math.Abs(off) <= tolerances*s.Answer.Tolerance
}

// alike tells mistakes of different names that one answer could come from.
func (a Answer) alike(m, n Mistake) bool {
	if a.Kind == KindWord {
		return m.Answer == n.Answer
	}
	off := min(math.Abs(a.off(m.Answer, n.Answer)), math.Abs(a.off(n.Answer, m.Answer)))
	return off <= between*a.Tolerance
}

// digits is the number that a quantity is printed as.
func digits(s quantity.Shown) float64 {
	x, err := strconv.ParseFloat(strings.ReplaceAll(s.Digits(), ",", ""), 64)
	if err != nil {
		return math.NaN()
	}
	return x
}
