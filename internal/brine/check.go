package brine

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Decision is the answer to "may this tank be pumped?".
type Decision int

// The decisions.
const (
	Pump Decision = iota
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

// judge places a strength. What is off an end by no more than would need correcting
// counts as in the band.
func (b Band) judge(s quantity.Strength) Decision {
	switch {
	case s > b.High+onTarget:
		return TooStrong
	case s < b.Low-onTarget:
		return TooWeak
	}
	return Pump
}

func (b Band) check() error {
	if !(b.Low <= b.Target) {
		return bad(FieldLow, "the band does not hold the target %v; allowed: 0%% to %v", b.Target, b.Target)
	}
	if !(b.High >= b.Target) {
		return bad(FieldHigh, "the band does not hold the target %v; allowed: %v and above", b.Target, b.Target)
	}
	return nil
}

// CheckRequest asks whether a tank may be pumped.
type CheckRequest struct {
	Sample   Sample
	Band     Band
	Volume   quantity.Volume
	Capacity quantity.Volume // 0 when not known
	Bed      quantity.Mass   // salt that is kept in the tank; 0 when not known
	With     Agent
	Stock    quantity.Strength
	RockSalt RockSalt
}

// CheckResult is the answer.
type CheckResult struct {
	Reading  ReadingResult
	Decision Decision
	// Naive is the decision that the reading gives when the temperature is left
	// out of account.
	Naive Decision
	// ReadingWanted is what the instrument shows at this temperature when the
	// strength is on target; LowReading and HighReading are the band's ends.
	ReadingWanted, LowReading, HighReading float64
	// Correction brings the tank to target, whatever the decision.
	Correction Correction
	// TargetSolid is the first solid on target.
	TargetSolid solution.Onset
}

// Misled reports whether the instrument, read without the thermometer, would
// have led to another decision.
func (c CheckResult) Misled() bool { return c.Naive != c.Decision }

// Check judges a tank and says what corrects it. Errors: InputError.
func Check(r CheckRequest) (CheckResult, error) {
	reading, err := Reading(r.Sample)
	if err != nil {
		return CheckResult{}, err
	}
	if err := checkTarget(r.Band.Target, r.Sample.Temperature); err != nil {
		return CheckResult{}, err
	}
	if err := r.Band.check(); err != nil {
		return CheckResult{}, err
	}
	c := CheckResult{
		Reading:  reading,
		Decision: r.Band.judge(reading.True),
		Naive:    r.Band.judge(reading.Apparent),
	}
	if c.Correction, err = Correct(r.Correction(c)); err != nil {
		return CheckResult{}, err
	}
	for _, want := range []struct {
		to *float64
		s  quantity.Strength
	}{{&c.ReadingWanted, r.Band.Target}, {&c.LowReading, r.Band.Low}, {&c.HighReading, r.Band.High}} {
		if *want.to, err = Expected(r.Sample.Instrument, want.s, r.Sample.Temperature); err != nil {
			return CheckResult{}, err
		}
	}
	c.TargetSolid, err = FirstSolid(r.Band.Target)
	return c, err
}

// Correction is the request that brings the tank to target. A tank that may be
// pumped is corrected with whatever suits, since nothing was asked.
func (r CheckRequest) Correction(c CheckResult) CorrectRequest {
	with := r.With
	if c.Decision == Pump {
		with = Auto
	}
	return CorrectRequest{
		Volume:      r.Volume,
		Strength:    c.Reading.True,
		Target:      r.Band.Target,
		Temperature: r.Sample.Temperature,
		Capacity:    r.Capacity,
		With:        with,
		Stock:       r.Stock,
		RockSalt:    r.RockSalt,
		Instrument:  r.Sample.Instrument,
	}
}
