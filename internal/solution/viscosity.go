package solution

import (
	"fmt"
	"math"
)

// ViscosityFloor is the lowest temperature (K) at which a viscosity is given: the
// fit of KCl has a pole at -10.8 C.
const ViscosityFloor = zeroCelsius - 10

// viscosityTop is the total mass fraction to which a viscosity is given; beyond
// 0.45 the fit of MgCl2 takes the logarithm of a negative number.
const viscosityTop = 0.45

// Viscosity returns the dynamic viscosity in Pa s of a solution at a temperature
// in K. The fits hold from 0 C (CaCl2), 5 C (NaCl, KCl) or 15 C (MgCl2); see
// Limits. Errors: ErrComposition, also above 45 % in all; ErrTemperature below
// ViscosityFloor or above Ceiling.
//
// Equations: Laliberte (2009), ln mu = sum of w ln mu over water and solutes, in
// mPa s with t in C.
func Viscosity(c Composition, temperature float64) (float64, error) {
	if err := checkFrom(ViscosityFloor, c, temperature); err != nil {
		return 0, err
	}
	if sum := c.Solute(); sum > viscosityTop {
		return 0, fmt.Errorf("%w: no viscosity above %g %% dissolved, asked for %.4g %%", ErrComposition, 100*viscosityTop, 100*sum)
	}
	t, water := temperature-zeroCelsius, c.Water()
	sum := water * math.Log(waterViscosity(t))
	for s, w := range densitySolutes(c) {
		if w == 0 {
			continue
		}
		v := &laliberteTable[s].v
		// mu = exp((v1 (1-ww)^v2 + v3) / (v4 t + 1)) / (v5 (1-ww)^v6 + 1)
		sum += w * ((v[0]*math.Pow(1-water, v[1])+v[2])/(v[3]*t+1) - math.Log(v[4]*math.Pow(1-water, v[5])+1))
	}
	return 1e-3 * math.Exp(sum), nil
}

// waterFlow holds the coefficients of Laliberte's viscosity of water.
var waterFlow = [4]float64{246, 137.37, 5.2842, 0.05594}

// waterViscosity returns mPa s of pure water at t in C.
func waterViscosity(t float64) float64 {
	k := &waterFlow
	return (t + k[0]) / ((k[3]*t+k[2])*t + k[1])
}
