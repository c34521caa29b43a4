package brine

import (
	"cmp"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

// CheckRequest asks whether a tank may be pumped.
type CheckRequest struct {
	Sample Sample
	Band   yard.Band
	Volume quantity.Volume
	// VolumeHalf is how far Volume may be off either way, spread evenly; 0 where it was not measured.
	VolumeHalf quantity.Volume
	Capacity   quantity.Volume // 0 when not known
	Bed        quantity.Mass   // salt that is kept in the tank; 0 when not known
	With       Additive
	Stock      quantity.Strength
	RockSalt   yard.RockSalt
}

// CheckResult is the answer.
type CheckResult struct {
	Reading  ReadingResult
	Decision yard.Decision
	// Best is the decision on the likeliest strength alone, and Naive that on the reading when
	// the temperature is left out of account: neither is ever on the edge.
	Best, Naive yard.Decision
	// ReadingWanted is what the instrument shows at this temperature when the
	// strength is on target; LowReading and HighReading are the band's ends.
	ReadingWanted, LowReading, HighReading float64
	// Correction brings the tank to target, whatever the decision.
	Correction Correction
	// Safe is what may be added on the edge of the band, whichever strength of the range is the true
	// one: the tank is in the band then. Nothing is added where there is no such amount.
	Safe Correction
	// SafeFor is the request that Safe answers.
	SafeFor CorrectRequest
	// TargetSolid is the first solid on target.
	TargetSolid solution.Onset
}

// Misled reports whether the instrument, read without the thermometer, would
// have led to another decision.
func (c CheckResult) Misled() bool { return c.Naive != c.Best }

// Check judges a tank and says what corrects it. Errors: InputError.
func Check(r CheckRequest) (CheckResult, error) {
	reading, err := Reading(r.Sample)
	target, noTarget := balance.KnowTarget(r.Band.Target, r.Sample.Temperature)
	if err := cmp.Or(err, noTarget, r.Band.Check()); err != nil {
		return CheckResult{}, err
	}
	r.Sample = reading.Sample // of several samples, the mean
	c := CheckResult{
		Reading:     reading,
		Decision:    r.Band.JudgeRange(reading.True, reading.Range.Low, reading.Range.High),
		Best:        r.Band.Judge(reading.True),
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
	if c.Decision == yard.OnTheEdge {
		c.SafeFor, c.Safe = r.safe(reading)
	}
	c.ReadingWanted = c.Correction.Reading
	if c.LowReading, err = Expected(r.Sample.Instrument, r.Band.Low, r.Sample.Temperature); err != nil {
		return CheckResult{}, err
	}
	c.HighReading, err = Expected(r.Sample.Instrument, r.Band.High, r.Sample.Temperature)
	return c, err
}

// Correction is the request that brings the tank to target. Where nothing is added on this
// reading, the additive is free.
func (r CheckRequest) Correction(c CheckResult) CorrectRequest {
	with := r.With
	if c.Decision == yard.MayPump || c.Decision == yard.OnTheEdge {
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
		Sure:        c.Reading.Sure,
		VolumeHalf:  r.VolumeHalf,
	}
}

// safe is water or salt after which the tank is in the band for every strength that the reading leaves
// open: what brings the best value to target, else what brings the end outside to the band's end.
// It is a correction of nothing where neither does, or where it does not fit.
func (r CheckRequest) safe(reading ReadingResult) (CorrectRequest, Correction) {
	outside, limit := reading.Range.Low, r.Band.Low
	if reading.True > r.Band.High {
		outside, limit = reading.Range.High, r.Band.High
	}
	for _, aim := range []struct{ from, to quantity.Strength }{{reading.True, r.Band.Target}, {outside, limit}} {
		q := r.Correction(CheckResult{Reading: reading, Decision: yard.OnTheEdge})
		q.Strength, q.Target, q.Sure, q.VolumeHalf = aim.from, aim.to, sure.Budget{}, 0
		dose, err := Correct(q)
		if err == nil && dose.DrawOffFirst == 0 && r.inBandAfter(dose, reading.Range) {
			return q, dose
		}
	}
	return CorrectRequest{}, Correction{Final: r.Volume, Strength: reading.True, Reading: r.Sample.Reading}
}

// inBandAfter reports whether a correction brings both ends of a range into the band.
func (r CheckRequest) inBandAfter(c Correction, span Span[quantity.Strength]) bool {
	dose := float64(c.Salt + c.Water.Mass(c.AddDensity))
	for _, w := range []quantity.Strength{span.Low, span.High} {
		m := float64(r.Volume.Mass(balance.BrineDensity(w, r.Sample.Temperature)))
		then := quantity.Strength((m*float64(w) + dose*c.Adds.Salt) / (m + dose*c.Adds.Brine))
		if r.Band.Judge(then) != yard.MayPump {
			return false
		}
	}
	return true
}
