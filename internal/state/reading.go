package state

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
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
	// Dissolving is set where it is weaker, and salt was put in that need not have dissolved yet.
	Dissolving bool
}

// Drifted reports whether the reading contradicts the entries.
func (r *TankReading) Drifted() bool {
	return r.Comparable && !r.Dissolving && yard.Contradicts(r.True, r.Expected)
}

// read compares an instrument with the entries. In plain brine it says how strong that is; the
// volume stays.
func (s *State) read(e *journal.Entry) {
	if e.Tank == "" {
		s.leaveOut(e, "a reading without its tank: left out")
		return
	}
	strength, ok := s.trueStrength(e)
	if !ok || !sound(balance.SaltBrine(strength)) {
		s.leaveOut(e, "a reading that no salt brine gives: left out")
		return
	}
	t := s.tank(e.Tank)
	s.touch(&t.Stock)
	expected, plain := t.Liquid.Strength()
	t.Reading = &TankReading{
		Entry: e.Number, Time: e.Time, True: strength, Expected: expected,
		Comparable: t.Mass > 0 && plain && t.Sure, Dissolving: t.open.salted && strength < expected,
	}
	if t.Reading.Drifted() {
		s.problem(e, t.Name+" reads %v true where the entries make it %v", strength, expected)
		t.Said.Doubt = &yard.Doubt{Entry: e.Number, Read: strength, Expected: expected}
	}
	s.effect.Read = t.Reading
	t.open.readAt(e, s.yard.Band().Judge(strength) == yard.MayPump)
	if !plain {
		return
	}
	before, had := t.Masses(), t.Volume()
	name := t.Liquid.Name
	if name == "" {
		name = balance.BrineName // it was water
	}
	t.setLiquid(balance.SaltBrine(strength).Named(name))
	s.part(Read, name, t.Volume()-had, t.Masses().Minus(before))
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
		Instrument:  gauge.Instrument{Scale: scale, Calibration: float64(s.yard.HydrometerCalibration())},
		Reading:     scale.FromRow(*e.Reading),
		Temperature: *e.Temp,
	})
	return got.True, err == nil
}
