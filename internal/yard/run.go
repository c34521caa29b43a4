package yard

import (
	"time"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
)

// Run is how a tank was read while it was pumped over its salt, from the last that was put into it or taken out.
type Run struct {
	Readings []TimedReading
	// End is where all its salt would bring it, by the entries; 0 where they do not say.
	End quantity.Strength
	// Volume is what stood in the tank at the first reading, with all that salt in it where End is known.
	Volume quantity.Volume
}

// TimedReading is one of the journal's.
type TimedReading struct {
	Entry       int
	Time        time.Time
	Instrument  gauge.Instrument
	Thermometer gauge.Thermometer
	Shown       float64 // in the unit of the instrument's scale
	Temperature quantity.Temperature
}

// Newest is the last reading; false where there is none.
func (r Run) Newest() (TimedReading, bool) {
	if len(r.Readings) == 0 {
		return TimedReading{}, false
	}
	return r.Readings[len(r.Readings)-1], true
}

// Passage is a batch whose water ran once through the bed: how much brine left it in a time, and how strong.
type Passage struct {
	Flow     quantity.Flow // of brine
	Strength quantity.Strength
}
