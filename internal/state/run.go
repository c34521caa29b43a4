package state

import (
	"time"

	"brineyard/internal/gauge"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

const (
	// mostRuns are the mixings of a tank that are kept: the last ones.
	mostRuns = 12
	// leastRun are the readings from which on a mixing tells something.
	leastRun = 3
	// sameRun is the longest time between two readings of one mixing. Common practice, no source.
	sameRun = 6 * time.Hour
	// mostReadings bounds one mixing.
	mostReadings = 40
)

// keepReading adds a reading to the mixing that goes on, or begins another where something was put in or taken
// out since, or the last reading is long ago.
func (t *Tank) keepReading(r yard.TimedReading, end quantity.Strength) {
	last, any := t.run.Newest()
	if any && (t.Said.Entry != last.Entry || r.Time.Sub(last.Time) > sameRun || !r.Time.After(last.Time)) {
		t.endRun()
	}
	if len(t.run.Readings) < mostReadings {
		t.run.Readings = append(t.run.Readings, r)
	}
	if len(t.run.Readings) == 1 { // later ones have moved the masses, since a reading leaves the volume
		t.run.End, t.run.Volume = end, t.Volume()
	}
}

func (t *Tank) endRun() {
	if len(t.run.Readings) >= leastRun {
		t.runs = keepLast(t.runs, t.run)
	}
	t.run = yard.Run{}
}

// keepLast adds to what is kept, the oldest of which then goes.
func keepLast[T any](all []T, x T) []T {
	if len(all) == mostRuns {
		all = append(all[:0], all[1:]...)
	}
	return append(all, x)
}

// Runs are the mixing that goes on, which has no readings where something has changed the tank since the last, and
// those before it, the oldest first.
func (t *Tank) Runs() (now yard.Run, past []yard.Run) {
	past = t.runs
	last, any := t.run.Newest()
	switch {
	case any && last.Entry == t.Said.Entry:
		now = t.run
	case len(t.run.Readings) >= leastRun:
		past = append(past[:len(past):len(past)], t.run)
	}
	return now, past
}

// timed is an entry's reading with the yard's instruments; a strength whose reading was not recorded is one of a hydrometer
// in a sample of the temperature that it is marked for.
func (s *State) timed(e *journal.Entry, w quantity.Strength) yard.TimedReading {
	r := yard.TimedReading{Entry: e.Number, Time: e.Time}
	if scale, known := gauge.ScaleNamed(e.Scale); known && e.Reading != nil && e.Temp != nil {
		r.Thermometer = s.yard.ThermometerInUse()
		r.Instrument, r.Shown, r.Temperature = s.yard.Instrument(scale), scale.FromRow(*e.Reading), r.Thermometer.True(*e.Temp)
		return r
	}
	r.Instrument = s.yard.Instrument(gauge.PercentSalt)
	r.Instrument.Offset = 0
	r.Shown, r.Temperature = float64(w), quantity.Temperature(r.Instrument.Calibration)
	return r
}

// passed keeps a measured batch of which the entry says how long it took: its water ran once through the bed.
func (t *Tank) passed(e *journal.Entry) {
	w, plain := t.Liquid.Strength()
	if !plain || e.Hours == nil || !(*e.Hours > 0) || !(*e.Volume > 0) {
		return
	}
	t.passages = keepLast(t.passages, yard.Passage{Flow: quantity.Flow(float64(*e.Volume) / float64(*e.Hours)), Strength: w})
}
