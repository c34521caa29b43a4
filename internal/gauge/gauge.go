// Package gauge turns what an instrument shows into the density of the sample,
// and back. A hydrometer floats at the density of the sample at the sample's
// temperature; its marks are a scale on that density, true at the calibration
// temperature of the glass.
package gauge

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Instrument is a scale on glass that was marked at a temperature. Division, Offset and OffsetSure are in
// the unit of a reading.
type Instrument struct {
	Scale
	Calibration float64 // K; of no effect where nothing floats
	// Division lies between the marks, to the nearest of which it is read; 0 where it is read exactly.
	Division float64
	// Offset is what it shows too much; the truth lies within OffsetSure of that, either way.
	Offset, OffsetSure float64
}

// Thermometer is what the sample's temperature is read from.
type Thermometer struct {
	Division float64 // K between its marks; 0 where it is read exactly
	// Offset is what it shows too much, in K; the truth lies within OffsetSure of that, either way.
	Offset, OffsetSure float64
}

// True returns the temperature (K) where the thermometer shows t.
func (m Thermometer) True(t quantity.Temperature) quantity.Temperature {
	return t - quantity.Temperature(m.Offset)
}

// UsualThermometer is marked every 2 F, or every 1 C for a metric crew. Common practice, no source.
func UsualThermometer(sys quantity.System) Thermometer {
	if sys == quantity.Metric {
		return Thermometer{Division: 1}
	}
	return Thermometer{Division: 2 * 5.0 / 9}
}

// DefaultCalibration is 60 F, common practice for hydrometers.
const DefaultCalibration = solution.SixtyF

// PercentGlass is the trade's percent hydrometer, marked for 60 F.
func PercentGlass() Instrument {
	return Instrument{Scale: PercentSalt, Calibration: DefaultCalibration}
}

// GlassExpansion is the cubic expansion of hydrometer glass, 1/K, the value usual
// for soda-lime glass (ISO 649-2 uses 25e-6).
const GlassExpansion = 25e-6

// constants are the numbers of glass and scales. The functions get them by pointer
// and never write to them, so that a test can ask what a changed copy would give.
type constants struct {
	expansion float64 // GlassExpansion
	// full is the strength at 100 salometer degrees: saturated brine at 60 F, Salt
	// Institute solubility table (26.395 %).
	full float64
	// modulus is that of the Baume scale for liquids heavier than water, 145 at 60 F
	// (NBS Circular 19; from memory).
	modulus float64
}

// standard are the constants behind every answer.
var standard = constants{expansion: GlassExpansion, full: salometerFull, modulus: 145}

const salometerFull = 0.26395

// Density returns the density in kg/m3 of a sample at temperature (K) in which
// the instrument shows the reading (in the unit of its Scale). It is false when
// no such brine exists: a reading off the scale, a temperature outside the
// density fit.
func (i Instrument) Density(reading, temperature float64) (float64, bool) {
	return i.density(&standard, reading, temperature)
}

func (i Instrument) density(k *constants, reading, temperature float64) (float64, bool) {
	rho, ok := i.facts().mark(k, reading-i.Offset, i.Calibration)
	if !ok || !liquid(temperature) {
		return 0, false
	}
	return rho / i.glass(k, temperature), true
}

// Reading returns what the instrument shows in a sample of the given density
// (kg/m3) at temperature (K); false when that is off its scale. It is the
// inverse of Density.
func (i Instrument) Reading(density, temperature float64) (float64, bool) {
	return i.reading(&standard, density, temperature)
}

func (i Instrument) reading(k *constants, density, temperature float64) (float64, bool) {
	if !positive(density) || !liquid(temperature) {
		return 0, false
	}
	reading, ok := i.facts().reading(k, density*i.glass(k, temperature), i.Calibration)
	if !ok {
		return 0, false
	}
	return reading + i.Offset, true
}

// Nearest is Reading, but it returns the end of a scale of strength for a density
// beyond it. It is false when the glass cannot have been marked at its calibration.
func (i Instrument) Nearest(density, temperature float64) (float64, bool) {
	if reading, ok := i.Reading(density, temperature); ok {
		return reading, true
	}
	for _, end := range []float64{0, i.facts().top} {
		mark, ok := i.Density(end+i.Offset, temperature)
		if ok && (density < mark) == (end == 0) {
			return end + i.Offset, true
		}
	}
	return 0, false
}

// Mark returns the density in kg/m3 for which the mark of a reading was made; false for a
// reading off the scale. For a weighed sample it is the reading itself.
func (i Instrument) Mark(reading float64) (float64, bool) {
	return i.facts().mark(&standard, reading-i.Offset, i.Calibration)
}

// Sample returns the density in kg/m3 of a sample at temperature (K) in which the
// instrument floats at the mark for a density; false outside the density fit.
func (i Instrument) Sample(mark, temperature float64) (float64, bool) {
	return mark / i.glass(&standard, temperature), liquid(temperature)
}

// glass returns by how much the immersed part of the instrument is larger at a
// temperature (K) than when it was marked. Larger glass displaces more, so the
// instrument floats at a mark for a denser liquid.
func (i Instrument) glass(k *constants, temperature float64) float64 {
	if !i.Floats() {
		return 1
	}
	return 1 + k.expansion*(temperature-i.Calibration)
}

// liquid reports whether densities are known at the temperature (K).
func liquid(temperature float64) bool {
	return temperature >= solution.DensityFloor && temperature <= solution.Ceiling
}

// positive reports whether x is a finite number above zero.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 0) }
