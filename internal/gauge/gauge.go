// Package gauge turns what an instrument shows into the density of the sample,
// and back. A hydrometer floats at the density of the sample at the sample's
// temperature; its marks are a scale on that density, true at the calibration
// temperature of the glass.
package gauge

import (
	"math"

	"brineyard/internal/solution"
)

// Scale is what an instrument's marks, or a weighing, express.
type Scale int

// The scales. The unit of a reading is given with each.
const (
	PercentSalt     Scale = iota // mass fraction of NaCl
	SpecificGravity              // density over that of water, both at calibration
	Salometer                    // degrees, 100 at saturation at 60 F
	Baume                        // degrees, 145 - 145/SG
	Weighed                      // kg/m3 of a weighed volume, no glass afloat
)

// Instrument is a scale on glass that was marked at a temperature.
type Instrument struct {
	Scale       Scale
	Calibration float64 // K; of no effect for Weighed
}

// DefaultCalibration is 60 F, common practice for the trade's hydrometers.
const DefaultCalibration = solution.SixtyF

const (
	// GlassExpansion is the cubic expansion of hydrometer glass, 1/K, the value
	// usual for soda-lime glass (ISO 649-2 uses 25e-6).
	GlassExpansion = 25e-6
	// SalometerFull is the strength at 100 salometer degrees: saturated brine at
	// 60 F, Salt Institute solubility table (26.395 %).
	SalometerFull = 0.26395
	// baumeModulus is the modulus of the scale for liquids heavier than water,
	// 145 at 60 F (NBS Circular 19; from memory).
	baumeModulus = 145
)

// trade holds them as a table, so that the tests can show that each of them is
// watched; nothing changes it.
var trade = struct{ expansion, full, modulus float64 }{GlassExpansion, SalometerFull, baumeModulus}

// Density returns the density in kg/m3 of a sample at temperature (K) in which
// the instrument shows the reading (in the unit of its Scale). It is false when
// no such brine exists: a reading off the scale, a temperature outside the
// density fit.
func (i Instrument) Density(reading, temperature float64) (float64, bool) {
	rho, ok := i.mark(reading)
	if !ok || !liquid(temperature) {
		return 0, false
	}
	return rho / i.glass(temperature), true
}

// liquid tells the temperatures (K) that densities are known for.
func liquid(temperature float64) bool {
	return temperature >= solution.DensityFloor && temperature <= solution.Ceiling
}

// Reading returns what the instrument shows in a sample of the given density
// (kg/m3) at temperature (K); false when that is off its scale. It is the
// inverse of Density.
func (i Instrument) Reading(density, temperature float64) (float64, bool) {
	if !(density > 0 && !math.IsInf(density, 0)) || !liquid(temperature) {
		return 0, false
	}
	rho := density * i.glass(temperature)
	switch i.Scale {
	case PercentSalt:
		return solution.BrineStrength(rho, i.Calibration)
	case Salometer:
		w, ok := solution.BrineStrength(rho, i.Calibration)
		return 100 * w / trade.full, ok
	case Weighed:
		return rho, true
	}
	water, err := solution.WaterDensity(i.Calibration)
	if err != nil {
		return 0, false
	}
	sg := rho / water
	if i.Scale == Baume {
		return trade.modulus - trade.modulus/sg, true
	}
	return sg, true
}

// mark returns the density in kg/m3 for which a mark of the scale was made.
func (i Instrument) mark(reading float64) (float64, bool) {
	switch i.Scale {
	case PercentSalt:
		return brineDensity(reading, i.Calibration)
	case Salometer:
		return brineDensity(reading/100*trade.full, i.Calibration)
	case Weighed:
		return reading, reading > 0 && !math.IsInf(reading, 0)
	}
	water, err := solution.WaterDensity(i.Calibration)
	if err != nil {
		return 0, false
	}
	if i.Scale == Baume {
		return water * trade.modulus / (trade.modulus - reading), reading < trade.modulus && !math.IsInf(reading, 0)
	}
	return water * reading, reading > 0 && !math.IsInf(reading, 0)
}

// glass returns by how much the immersed part of the instrument is larger at a
// temperature (K) than when it was marked. Larger glass displaces more, so the
// instrument floats at a mark for a denser liquid.
func (i Instrument) glass(temperature float64) float64 {
	if i.Scale == Weighed {
		return 1
	}
	return 1 + trade.expansion*(temperature-i.Calibration)
}

// brineDensity is for the strengths that BrineStrength gives back.
func brineDensity(strength, temperature float64) (float64, bool) {
	rho, err := solution.Density(solution.Brine(strength), temperature)
	return rho, err == nil && strength <= solution.BrineTop
}
