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
	Entry int
	Time  time.Time
	True  quantity.Strength
	// Range holds the true strength 95 times in 100.
	Range    brine.Span[quantity.Strength]
	Expected quantity.Strength // by the entries, at that moment
	// Comparable is unset where the entries did not say what was in the tank, or it was no
	// plain brine.
	Comparable bool
	// MayReach is what salt on its way may bring the brine to; see yard.Said.
	MayReach quantity.Strength
}

// Drifted reports whether the reading contradicts the entries.
func (r *TankReading) Drifted() bool {
	return r.Comparable && yard.Said{MayReach: r.MayReach}.Contradicted(r.True, r.Expected)
}

// mayReach is the strength to which salt may bring a tank that was put in and has not dissolved by
// the readings, and that on its bed; 0 where none is on its way.
func (s *State) mayReach(t *Tank) quantity.Strength {
	if !t.open.salted {
		return 0
	}
	m := t.Masses()
	solid := t.open.undissolved + float64(t.OnFloor)*s.PileSalt.SodiumChloride()
	return quantity.Strength((m.NaCl + solid) / (m.Total() + solid))
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
	t.keepReading(s.timed(e, strength), s.mayReach(t))
	s.touch(&t.Stock)
	expected, plain := t.Liquid.Strength()
	t.Reading = &TankReading{
		Entry: e.Number, Time: e.Time, True: strength, Range: s.spread(e, strength), Expected: expected,
		Comparable: t.Mass > 0 && plain && t.Sure, MayReach: s.mayReach(t),
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
	changed := t.Masses().Minus(before)
	t.open.undissolved = max(0, t.open.undissolved-changed.NaCl)
	s.part(Read, name, t.Volume()-had, changed)
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
	thermometer := s.yard.ThermometerInUse()
	got, err := brine.Reading(brine.Sample{
		Instrument:  s.yard.Instrument(scale),
		Thermometer: thermometer,
		Reading:     scale.FromRow(*e.Reading),
		Temperature: thermometer.True(*e.Temp),
	})
	return got.True, err == nil
}

// spread is the range of a strength that was read with the yard's usual instrument of its scale; that of
// a strength whose instrument the row does not name is the strength alone.
func (s *State) spread(e *journal.Entry, w quantity.Strength) brine.Span[quantity.Strength] {
	scale, known := gauge.ScaleNamed(e.Scale)
	if !known || e.Temp == nil {
		return brine.Span[quantity.Strength]{Low: w, High: w}
	}
	return brine.RangeOf(s.yard.Instrument(scale), s.yard.ThermometerInUse(), w, *e.Temp)
}

// Range is that of the strength in the tank as it was last read, and the strength alone where something
// has changed it since. It is false where no plain brine stands there.
func (t *Tank) Range() (brine.Span[quantity.Strength], bool) {
	w, plain := t.Liquid.Strength()
	span := brine.Span[quantity.Strength]{Low: w, High: w}
	if r := t.Reading; plain && r != nil && r.True-w < yard.OnTarget && w-r.True < yard.OnTarget {
		span = r.Range
	}
	return span, plain
}
