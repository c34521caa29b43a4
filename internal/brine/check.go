package brine

import (
	"cmp"

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
	target, noTarget := balance.KnowTarget(r.Band.Target, r.Sample.Temperature)
	if err := cmp.Or(err, noTarget, r.Band.Check()); err != nil {
		return CheckResult{}, err
	}
	c := CheckResult{
		Reading:     reading,
		Decision:    r.Band.Judge(reading.True),
		Naive:       r.Band.Judge(reading.Apparent),
		TargetSolid: target.First(),
	}
	correction := r.Correction(c)
	if err := correction.checkVolume(); err != nil {
		return CheckResult{}, err
	}
	if c.Correction, err = correction.correct(reading.Known, target); err != nil {
		return CheckResult{}, err
	}
	c.ReadingWanted = c.Correction.Reading
	if c.LowReading, err = Expected(r.Sample.Instrument, r.Band.Low, r.Sample.Temperature); err != nil {
		return CheckResult{}, err
	}
	c.HighReading, err = Expected(r.Sample.Instrument, r.Band.High, r.Sample.Temperature)
	return c, err
}

// Correction is the request that brings the tank to target. Where the tank may be pumped,
// nothing was asked, and the additive is free.
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
