package gauge

import (
	"math"

	"brineyard/internal/solution"
)

// Each scale as two functions: from a mark to the density in kg/m3 for which it was
// made, and back. They are false off the scale, and where the glass cannot have been
// marked at its calibration (K).

func percentMark(_ *constants, strength, calibration float64) (float64, bool) {
	rho, err := solution.Density(solution.Brine(strength), calibration)
	return rho, err == nil && strength <= solution.BrineTop
}

func percentReading(_ *constants, rho, calibration float64) (float64, bool) {
	return solution.BrineStrength(rho, calibration)
}

// A salometer divides the strength of saturated brine at 60 F evenly into 100.
func salometerMark(k *constants, degrees, calibration float64) (float64, bool) {
	return percentMark(k, degrees/100*k.full, calibration)
}

func salometerReading(k *constants, rho, calibration float64) (float64, bool) {
	w, ok := percentReading(k, rho, calibration)
	return 100 * w / k.full, ok
}

func gravityMark(_ *constants, gravity, calibration float64) (float64, bool) {
	water, err := solution.WaterDensity(calibration)
	return water * gravity, err == nil && positive(gravity)
}

func gravityReading(_ *constants, rho, calibration float64) (float64, bool) {
	water, err := solution.WaterDensity(calibration)
	return rho / water, err == nil
}

// Degrees Baume, of liquids heavier than water: modulus - modulus / gravity.
func baumeMark(k *constants, degrees, calibration float64) (float64, bool) {
	water, err := solution.WaterDensity(calibration)
	return water * k.modulus / (k.modulus - degrees), err == nil && degrees < k.modulus && !math.IsInf(degrees, 0)
}

func baumeReading(k *constants, rho, calibration float64) (float64, bool) {
	gravity, ok := gravityReading(k, rho, calibration)
	return k.modulus - k.modulus/gravity, ok
}

// weighed is a density as it stands.
func weighed(_ *constants, rho, _ float64) (float64, bool) { return rho, positive(rho) }
