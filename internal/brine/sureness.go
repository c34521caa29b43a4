package brine

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
)

// The parts of what makes a reading unsure.
const (
	PartMark        = "reading to the nearest mark"
	PartOffset      = "what is not known of the instrument's offset"
	PartThermometer = "the thermometer, read to its nearest mark"
	PartThermOffset = "what is not known of the thermometer's offset"
	PartStick       = "the stick, read to its nearest mark"
)

// Sureness returns what makes a strength unsure, as mass fractions, that an instrument tells in NaCl
// brine of strength w at temperature t: each error goes over to the strength by the slope of the
// density there. It is exact where no density is known.
//
// An instrument that is read to the nearest mark is off by up to half a division either way, and no
// value between is likelier than another (JCGM 100:2008, 4.3.7).
func Sureness(i gauge.Instrument, with gauge.Thermometer, w quantity.Strength, t quantity.Temperature) sure.Budget {
	if !(t >= densityFloor && t <= densityCeiling && w >= 0 && w <= solution.MaxSolute) {
		return sure.Budget{}
	}
	perStrength, perKelvin := densitySlopes(w, t)
	rho := balance.BrineDensity(w, t)
	reading, ok := i.Nearest(float64(rho), float64(t))
	if !ok || !(perStrength > 0) {
		return sure.Budget{}
	}
	perReading := markSlope(i, reading, t) / perStrength
	// The density at which the glass floats changes with the temperature less than the brine does.
	perDegree := math.Abs(perKelvin) / perStrength
	if i.Floats() {
		perDegree = math.Abs(perKelvin+gauge.GlassExpansion*float64(rho)) / perStrength
	}
	return sure.Budget{}.And(
		sure.Part{Name: PartMark, Half: perReading * i.Division / 2},
		sure.Part{Name: PartOffset, Half: perReading * i.OffsetSure},
		sure.Part{Name: PartThermometer, Half: perDegree * with.Division / 2},
		sure.Part{Name: PartThermOffset, Half: perDegree * with.OffsetSure},
	)
}

// markSlope is the change of density (kg/m3) with the reading, over the marks on both sides of it, as far as
// they are on the scale.
func markSlope(i gauge.Instrument, reading float64, t quantity.Temperature) float64 {
	step := max(i.Division/2, i.OffsetSure)
	low, below := i.Density(reading-step, float64(t))
	high, above := i.Density(reading+step, float64(t))
	here, _ := i.Density(reading, float64(t))
	switch {
	case step == 0 || !below && !above:
		return 0
	case !below:
		return math.Abs(high-here) / step
	case !above:
		return math.Abs(here-low) / step
	}
	return math.Abs(high-low) / (2 * step)
}

// RangeOf is the range of a strength that an instrument told in NaCl brine at temperature t.
func RangeOf(i gauge.Instrument, with gauge.Thermometer, w quantity.Strength, t quantity.Temperature) Span[quantity.Strength] {
	return around(w, quantity.Strength(Sureness(i, with, w, t).Half()), 0, solution.MaxSolute)
}

// densitySlopes are the changes of the density of NaCl brine with its strength (kg/m3) and with
// its temperature (kg/m3 K).
func densitySlopes(w quantity.Strength, t quantity.Temperature) (perStrength, perKelvin float64) {
	const step, degree = quantity.Strength(0.0025), quantity.Temperature(0.5)
	weaker, stronger := max(0, w-step), min(solution.MaxSolute, w+step)
	perStrength = float64(balance.BrineDensity(stronger, t)-balance.BrineDensity(weaker, t)) / float64(stronger-weaker)
	colder, warmer := max(densityFloor, t-degree), min(densityCeiling, t+degree)
	perKelvin = float64(balance.BrineDensity(w, warmer)-balance.BrineDensity(w, colder)) / float64(warmer-colder)
	return perStrength, perKelvin
}

// FirstSolid is what first forms on cooling in NaCl brine of a strength. Errors: those of
// solution.Freezing.
func FirstSolid(w quantity.Strength) (solution.Onset, error) {
	cold, err := solution.Anchored().Freezing(solution.Brine(float64(w)))
	return cold.First(), err
}

// Span is a value with the range that holds the truth 95 times in 100.
type Span[Q ~float64] struct{ Low, High Q }

// around returns the range of half-width half around q, cut at least and most.
func around[Q ~float64](q, half, least, most Q) Span[Q] {
	return Span[Q]{Low: max(least, q-half), High: max(q, min(most, q+half))}
}

// Half returns half of its width.
func (s Span[Q]) Half() Q { return (s.High - s.Low) / 2 }
