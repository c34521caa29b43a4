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
	rho := balance.BrineDensity(w, t)
	reading, ok := i.Nearest(float64(rho), float64(t))
	if !ok {
		return sure.Budget{}
	}
	return surenessAt(i, with, reading, w, t, rho)
}

// surenessAt is Sureness where the reading and the density are known.
func surenessAt(i gauge.Instrument, with gauge.Thermometer, reading float64, w quantity.Strength, t quantity.Temperature, rho quantity.Density) sure.Budget {
	perStrength, perKelvin := densitySlopes(w, t, rho)
	perReading := markSlope(i, reading, t, rho) / perStrength
	perDegree := floating(i, perKelvin, rho) / perStrength
	return sure.Budget{}.And(
		sure.Part{Name: PartMark, Half: perReading * i.Division / 2},
		sure.Part{Name: PartOffset, Half: perReading * i.OffsetSure},
		sure.Part{Name: PartThermometer, Half: perDegree * with.Division / 2},
		sure.Part{Name: PartThermOffset, Half: perDegree * with.OffsetSure},
	)
}

// floating is the change of density (kg/m3 K), whatever its sign, that an instrument shows of a brine's with the
// temperature: that at which a glass floats changes less than the brine does, since the glass grows too.
func floating(i gauge.Instrument, perKelvin float64, rho quantity.Density) float64 {
	if i.Floats() {
		perKelvin += gauge.GlassExpansion * float64(rho)
	}
	return math.Abs(perKelvin)
}

// The steps over which slopes are taken: so small that the bend of the density does not show, and so large that
// its digits do not.
const strengthStep, degreeStep, markStep = 1e-4, 0.01, 1e-2

// markSlope is the change of density (kg/m3) with the reading at a reading where it is rho, taken to the side that is on
// the scale.
func markSlope(i gauge.Instrument, reading float64, t quantity.Temperature, rho quantity.Density) float64 {
	step := markStep * max(i.Division, i.OffsetSure)
	if step == 0 {
		return 0
	}
	beside, ok := i.Density(reading+step, float64(t))
	if !ok {
		beside, ok = i.Density(reading-step, float64(t))
	}
	if !ok {
		return 0
	}
	return math.Abs(beside-float64(rho)) / step
}

// RangeOf is the range of a strength that an instrument told in NaCl brine at temperature t.
func RangeOf(i gauge.Instrument, with gauge.Thermometer, w quantity.Strength, t quantity.Temperature) Span[quantity.Strength] {
	return around(w, quantity.Strength(Sureness(i, with, w, t).Half()), 0, solution.MaxSolute)
}

// densitySlopes are the changes of the density of NaCl brine, rho, with its strength (kg/m3) and with
// its temperature (kg/m3 K).
func densitySlopes(w quantity.Strength, t quantity.Temperature, rho quantity.Density) (perStrength, perKelvin float64) {
	beside, other := w-strengthStep, t-degreeStep
	if beside < 0 {
		beside = w + strengthStep
	}
	if other < densityFloor {
		other = t + degreeStep
	}
	perStrength = float64(rho-balance.BrineDensity(beside, t)) / float64(w-beside)
	perKelvin = float64(rho-balance.BrineDensity(w, other)) / float64(t-other)
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
