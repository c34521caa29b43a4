package drill

import (
	"math"
	"slices"
	"strconv"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// draft is a problem whose numbers may yet turn out unfit.
type draft struct {
	Problem
	// byHand is the answer in the user's unit, as a pocket calculator finds it from the
	// numbers that the question shows. It is not used for words.
	byHand float64
}

// The distances that keep answers apart, in tolerances.
const (
	fromRight = 3.0 // of a mistake from the right answer
	between   = 2.0 // of mistakes from one another
	// handFit bounds the error of the answer by hand, and printFit that of the printed
	// answer, so that neither uses up the tolerance.
	handFit, printFit = 0.4, 0.5
)

// finish reports whether the numbers make a problem. It drops each mistake whose answer is
// too near that of a mistake before it, since the answer would not tell which was made.
func (d *draft) finish() bool {
	if d.Answer.Kind == KindWord {
		d.Mistakes = slices.DeleteFunc(d.Mistakes, func(m Mistake) bool {
			return m.Answer == d.Answer.Value || !slices.Contains(d.Answer.Words, string(m.Answer.(fault.Word)))
		})
	} else if !d.numbersFit() {
		return false
	}
	var kept []Mistake
	for _, m := range d.Mistakes {
		if !slices.ContainsFunc(kept, func(k Mistake) bool { return d.Answer.alike(k, m) }) {
			kept = append(kept, m)
		}
	}
	d.Mistakes = kept
	return len(kept) > 0
}

// numbersFit reports whether the answer by hand and the printed answer are right, and every
// mistake's answer wrong.
func (d *draft) numbersFit() bool {
	a := d.Answer
	shown := a.Value.In(d.System)
	if !(shown.Value > 0) || !d.near(shown, d.byHand, handFit) || !d.near(shown, digits(shown), printFit) {
		return false
	}
	for _, m := range d.Mistakes {
		if x := si(m.Answer); !(x > 0) || math.IsInf(x, 0) || math.Abs(a.off(m.Answer, a.Value)) <= fromRight*a.Tolerance {
			return false
		}
	}
	return true
}

// near reports whether a number in the user's unit is within so many tolerances of the answer.
func (d *draft) near(shown quantity.Shown, number, tolerances float64) bool {
	off := number/shown.Value - 1
	if d.Answer.Kind == KindStrength {
		off = (number - shown.Value) / 100
	}
	return math.Abs(off) <= tolerances*d.Answer.Tolerance
}

// alike reports whether one answer could come from either of two mistakes.
func (a Answer) alike(m, n Mistake) bool {
	if a.Kind == KindWord {
		return m.Answer == n.Answer
	}
	off := min(math.Abs(a.off(m.Answer, n.Answer)), math.Abs(a.off(n.Answer, m.Answer)))
	return off <= between*a.Tolerance
}

// digits returns a quantity as it is printed; NaN if it is printed as a word.
func digits(s quantity.Shown) float64 {
	x, err := strconv.ParseFloat(quantity.Plain(s.Digits()), 64)
	if err != nil {
		return math.NaN()
	}
	return x
}
