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
)

// String returns the decision in words.
func (d Decision) String() string {
	return [...]string{"pump", "too strong", "too weak"}[d]
}

// Band is the true strength that may be pumped, ends included.
type Band struct{ Target, Low, High quantity.Strength }

// DefaultBand is common practice, no source: 23.3 % wanted, 23 to 24 % accepted.
var DefaultBand = Band{Target: 0.233, Low: 0.23, High: 0.24}

// BandAround is the default band, moved to a target that it does not hold.
func BandAround(target quantity.Strength) Band {
	b := DefaultBand
	if target < b.Low || target > b.High {
		shift := target - b.Target
		b.Low, b.High = max(0, b.Low+shift), b.High+shift
	}
	b.Target = target
	return b
}

// Judge places a strength. What is off an end by no more than would need correcting
// counts as in the band.
func (b Band) Judge(s quantity.Strength) Decision {
	switch {
	case s > b.High+OnTarget:
		return TooStrong
	case s < b.Low-OnTarget:
		return TooWeak
	}
	return MayPump
}

// Check refuses a band that does not hold its target.
func (b Band) Check() error {
	if !(b.Low <= b.Target) {
		return fault.Input(fault.FieldLow, "the band does not hold the target %v; allowed: 0%% to %v", b.Target, b.Target)
	}
	if !(b.High >= b.Target) {
		return fault.Input(fault.FieldHigh, "the band does not hold the target %v; allowed: %v and above", b.Target, b.Target)
	}
	return nil
}

// OnTarget is the strength within which a tank needs nothing: a hundredth of
// what a hydrometer can show.
const OnTarget = 5e-6
