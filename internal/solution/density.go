package solution

import (
	"math"

	"brineyard/internal/root"
)

// SixtyF is 60 F in K, the reference temperature of the trade's instruments and
// tables.
const SixtyF = zeroCelsius + 28*5.0/9

// DensityFloor is the lowest temperature (K) of a density: below it the equation for
// water runs toward its pole at -59 C.
const DensityFloor = zeroCelsius - 35

// Density returns the density in kg/m3 of a solution at a temperature in K, at
// atmospheric pressure. The fits hold from 0 C (CaCl2: 15 C, KCl: 5 C), and up to
// strengths that OutOfRange knows. Down to -20 C the tables are met within 0.3 %
// for NaCl and 0.9 % for CaCl2 and MgCl2. Errors: ErrComposition, and
// ErrTemperature below DensityFloor or above Ceiling.
//
// Equations: Laliberte (2009), 1/rho = sum of w/rho over water and solutes.
func Density(c Composition, temperature float64) (float64, error) {
	if err := checkFrom(DensityFloor, c, temperature); err != nil {
		return 0, err
	}
	return standard.density(c, temperature-zeroCelsius), nil
}

// density is Density at t in C.
func (k *coefficients) density(c Composition, t float64) float64 {
	water := c.Water()
	volume := water / k.densityOfWater(t)
	for s, w := range densitySolutes(c) {
		if w > 0 {
			volume += w / k.soluteDensity(Salt(s), water, t)
		}
	}
	return 1 / volume
}

// densitySolutes returns the mass fractions of the salts, with Other added to NaCl.
func densitySolutes(c Composition) [saltCount]float64 {
	w := c.salts()
	w[NaCl] += c.Other
	return w
}

// kellDensity returns a0 to a5 and b of the density of water in kg/m3 by Kell, J.
// Chem. Eng. Data 20 (1975) 97, which Laliberte uses:
//
//	(a0 + a1 t + a2 t^2 + a3 t^3 + a4 t^4 + a5 t^5) / (1 + b t), t in C
func kellDensity() [7]float64 {
	return [7]float64{999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12, 16.87985e-3}
}

// densityOfWater evaluates Kell's equation at t in C.
func (k *coefficients) densityOfWater(t float64) float64 {
	a := &k.waterDensity
	return (((((a[5]*t+a[4])*t+a[3])*t+a[2])*t+a[1])*t + a[0]) / (1 + a[6]*t)
}

// soluteDensity returns the apparent density in kg/m3 of a dissolved salt, Laliberte
// (2009):
//
//	(c0 (1 - ww) + c1) exp(1e-6 (t + c4)^2) / (1 - ww + c2 + c3 t), t in C
func (k *coefficients) soluteDensity(s Salt, water, t float64) float64 {
	c := &k.laliberte[s].c
	warm := t + c[4]
	return (c[0]*(1-water) + c[1]) * math.Exp(1e-6*warm*warm) / (1 - water + c[2] + c[3]*t)
}

// WaterDensity returns the density in kg/m3 of pure water at a temperature in K.
// Error: ErrTemperature.
func WaterDensity(temperature float64) (float64, error) {
	return Density(Composition{}, temperature)
}

// BrineTop is the largest strength (mass fraction) that BrineStrength returns. It lies
// 1 % above saturation, so that a reading there can be recognised as too strong.
const BrineTop = 0.28

// BrineStrength returns the strength (mass fraction) of the NaCl brine that has
// the given density (kg/m3) at the given temperature (K), from 0 to 0.28, and
// false when no such brine has it. It is the inverse of Density to 1e-12.
func BrineStrength(rho, temperature float64) (float64, bool) {
	if checkFrom(DensityFloor, Composition{}, temperature) != nil {
		return 0, false
	}
	t := temperature - zeroCelsius
	off := func(w float64) float64 { return standard.density(Brine(w), t) - rho }
	low, high := off(0), off(BrineTop)
	// A reading of plain water may miss zero by its last digits.
	const slack = 1e-9
	switch {
	case math.Abs(low) < slack*rho:
		return 0, true
	case math.Abs(high) < slack*rho:
		return BrineTop, true
	case !(low < 0 && high > 0):
		return 0, false
	}
	// The strength nearly always lies within a tenth of the range from the straight
	// line. Looking there first saves half of the steps.
	straight := BrineTop * low / (low - high)
	a, b := math.Max(0, straight-0.1*BrineTop), math.Min(BrineTop, straight+0.1*BrineTop)
	if w, ok := root.Between(off, a, b, off(a), off(b), 1e-13); ok {
		return w, true
	}
	return root.Between(off, 0, BrineTop, low, high, 1e-13)
}
