package state

import (
	"time"

	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// TankReading is what an instrument showed in a tank beside what the entries say.
type TankReading struct {
	Entry    int
	Time     time.Time
	True     quantity.Strength
	Expected quantity.Strength // by the entries, at that moment
	// Comparable is unset where the entries did not say what was in the tank, or it was no
	// plain brine.
	Comparable bool
}

// driftAllowed is what a reading may be off before it is flagged: two marks of a
// hydrometer that is read to a tenth of a percent. Common practice, no source.
const driftAllowed = 0.002

// Drifted reports whether the reading contradicts the entries.
func (r *TankReading) Drifted() bool {
	d := r.True - r.Expected
	return r.Comparable && (d > driftAllowed || d < -driftAllowed)
}

// read compares an instrument with the entries.
func (s *State) read(e *journal.Entry) Effect {
	t := s.tank(e.Tank)
	strength, ok := s.trueStrength(e)
	if !ok {
		s.problem(e, "a reading that no salt brine gives: left out")
		return Effect{}
	}
	expected, plain := t.Liquid.Strength()
	t.Reading = &TankReading{Entry: e.Number, Time: e.Time, True: strength, Expected: expected, Comparable: t.Mass > 0 && plain}
	if t.Reading.Drifted() {
		s.problem(e, t.Name+" reads %v true where the entries make it %v", strength, expected)
	}
	return Effect{Read: t.Reading}
}

// trueStrength returns the true strength that a row gives, or that its reading means.
func (s *State) trueStrength(e *journal.Entry) (quantity.Strength, bool) {
	if e.NaCl != nil {
		return *e.NaCl, true
	}
	scale, known := gauge.ScaleNamed(e.Scale)
	if !known || e.Reading == nil || e.Temp == nil {
		return 0, false
	}
	got, err := brine.Reading(brine.Sample{
		Instrument:  gauge.Instrument{Scale: scale, Calibration: float64(s.markedAt)},
		Reading:     scale.FromRow(*e.Reading),
		Temperature: *e.Temp,
	})
	return got.True, err == nil
}
