package yard

import (
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// Decision is the answer to "may this tank be pumped?".
type Decision int

// The decisions.
const (
	MayPump Decision = iota
	TooStrong
	TooWeak
	// OnTheEdge is what a reading leaves open: its best value lies outside the band, and the truth
	// may lie inside.
	OnTheEdge
)

// String returns the decision in words.
func (d Decision) String() string {
	return [...]string{"pump", "too strong", "too weak", "on the edge"}[d]
}

// Band is the true strength that may be pumped, ends included.
type Band struct{ Target, Low, High quantity.Strength }

// BandAround is the default band. It moves along with a target that lies outside it.
func BandAround(target quantity.Strength) Band {
	b := DefaultBand()
	if target < b.Low || target > b.High {
		shift := target - b.Target
		b.Low, b.High = max(0, b.Low+shift), b.High+shift
	}
	b.Target = target
	return b
}

// Judge decides whether brine of a strength may be pumped. A strength within OnTarget of an
// end counts as inside, since nobody would correct so little.
func (b Band) Judge(s quantity.Strength) Decision {
	switch {
	case s > b.High+OnTarget:
		return TooStrong
	case s < b.Low-OnTarget:
		return TooWeak
	}
	return MayPump
}

// JudgeRange decides whether brine may be pumped that was read: best is the likeliest strength, low and
// high the ends of the range that holds the truth 95 times in 100. A best value in the band is pumped; one
// outside is on the edge where the range reaches into the band.
func (b Band) JudgeRange(best, low, high quantity.Strength) Decision {
	decision := b.Judge(best)
	if decision == TooWeak && high >= b.Low || decision == TooStrong && low <= b.High {
		return OnTheEdge
	}
	return decision
}

// Check refuses a band that leaves its target outside.
func (b Band) Check() error {
	if !(b.Low <= b.Target) {
		return fault.Input(fault.FieldLow, "the band does not hold the target %v; allowed: 0%% to %v", b.Target, b.Target)
	}
	if !(b.High >= b.Target) {
		return fault.Input(fault.FieldHigh, "the band does not hold the target %v; allowed: %v and above", b.Target, b.Target)
	}
	return nil
}

// OnTarget is the difference of strength that needs no correction: a hundredth of the least
// that a hydrometer shows.
const OnTarget = 5e-6
