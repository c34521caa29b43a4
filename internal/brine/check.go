package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// CheckRequest asks whether a tank may be pumped.
type CheckRequest struct {
	Sample   Sample
	Band     yard.Band
	Volume   quantity.Volume
	Capacity quantity.Volume // 0 when not known
	Bed      quantity.Mass   // salt that is kept in the tank; 0 when not known
	With     Additive
	Stock    quantity.Strength
	RockSalt yard.RockSalt
}

// CheckResult is the answer.
type CheckResult struct {
	Reading  ReadingResult
	Decision yard.Decision
	// Naive is the decision that the reading gives when the temperature is left
	// out of account.
	Naive yard.Decision
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
	if err := balance.CheckTarget(r.Band.Target, r.Sample.Temperature); err != nil {
		return CheckResult{}, err
	}
	if err := r.Band.Check(); err != nil {
		return CheckResult{}, err
	}
	c := CheckResult{
		Reading:  reading,
		Decision: r.Band.Judge(reading.True),
		Naive:    r.Band.Judge(reading.Apparent),
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
	c.TargetSolid, err = balance.FirstSolid(r.Band.Target)
	return c, err
}

// Correction is the request that brings the tank to target. A tank that may be
// pumped is corrected with whatever suits, since nothing was asked.
func (r CheckRequest) Correction(c CheckResult) CorrectRequest {
	with := r.With
	if c.Decision == yard.MayPump {
		with = AnyAdditive
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
