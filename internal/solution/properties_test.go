package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawComposition draws a solution of some of the four salts, from 0.1 % of
// solute up to the limit.
func drawComposition(t *rapid.T, limit float64) Composition {
	var w [saltCount]float64
	sum := 0.0
	for s := range w {
		w[s] = float64(rapid.IntRange(0, 100).Draw(t, Salt(s).String()))
		sum += w[s]
	}
	if sum == 0 {
		w[NaCl], sum = 1, 1
	}
	total := rapid.Float64Range(0.001, limit).Draw(t, "solute")
	for s := range w {
		w[s] *= total / sum
	}
	return fromSalts(w, 0)
}

// drawKelvin draws a temperature between two in C.
func drawKelvin(t *rapid.T, low, high float64) float64 {
	return zeroCelsius + rapid.Float64Range(low, high).Draw(t, "celsius")
}

func activityOf(m molality, kelvin float64) Activity {
	p := standard.parametersAt(kelvin, &m)
	return p.activity(&m)
}

// The Gibbs-Duhem equation ties the activity of water to those of the ions:
// along any path of composition, d ln aw / Mw = - sum of m d ln a over the ions.
// It holds only if F, B', E-theta' and every sum over pairs are right together.
//
// Central differences over a relative step of 1e-4 err by about the step's
// square; the tolerance of 1e-7 of the terms' size leaves ten times that.
func TestGibbsDuhem(t *testing.T) {
	const step, tolerance = 1e-4, 1e-7
	rapid.Check(t, func(t *rapid.T) {
		m, kelvin := standard.molality(drawComposition(t, CheckedTo)), drawKelvin(t, -60, 25)
		up, down := m, m
		for s := range m {
			d := step * rapid.Float64Range(-1, 1).Draw(t, "direction")
			up[s] *= 1 + d
			down[s] *= 1 - d
		}
		a, b := activityOf(up, kelvin), activityOf(down, kelvin)
		ions, size := m.chloride()*(a.LnChloride-b.LnChloride), m.dissolved()
		for s := range m {
			if m[s] > 0 {
				ions += m[s] * (a.LnCation[s] - b.LnCation[s])
			}
		}
		water := (a.LnWater - b.LnWater) / MolarMassWater
		require.InDelta(t, -ions, water, tolerance*2*step*size)
	})
}

// At infinite dilution Pitzer's equations become the limiting law of Debye and
// Hueckel: ln gamma = -3 A-phi z^2 sqrt I, and phi - 1 = -2 A-phi I^1.5 / sum of
// m. The next term is of order I ln I, below 1 % of the law at the I drawn here.
func TestInfiniteDilution(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, kelvin := standard.molality(drawComposition(t, CheckedTo)), drawKelvin(t, -60, 25)
		scale := rapid.Float64Range(1e-9, 1e-6).Draw(t, "ionic strength") / m.ionicStrength()
		for s := range m {
			m[s] *= scale
		}
		ionic := m.ionicStrength()
		a, p := activityOf(m, kelvin), standard.parametersAt(kelvin, &m)
		const tolerance = 0.01
		law := -3 * p.aPhi * math.Sqrt(ionic)
		require.InEpsilon(t, law, a.LnChloride-math.Log(m.chloride()), tolerance)
		for s := range m {
			if z := standard.salt[s].charge; m[s] > 0 {
				require.InEpsilon(t, z*z*law, a.LnCation[s]-math.Log(m[s]), tolerance, Salt(s))
			}
		}
		require.InEpsilon(t, -2*p.aPhi*math.Pow(ionic, 1.5)/m.dissolved(), a.Osmotic-1, tolerance)
		require.InDelta(t, 0, a.LnWater, 1e-6)
	})
	// Source: from memory, A-phi is 0.3915 at 25 C.
	p := standard.parametersAt(reference, &molality{})
	require.InDelta(t, 0.3915, p.aPhi, 1e-4)
}

func TestPureWaterIsTheStandardState(t *testing.T) {
	a, err := ActivityAt(Composition{}, zeroCelsius)
	require.NoError(t, err)
	require.Equal(t, pureWater(), a)
	require.Equal(t, Activity{Osmotic: 1, LnWater: 0, LnChloride: math.Inf(-1), LnCation: a.LnCation}, a)
	for _, ln := range a.LnCation {
		require.True(t, math.IsInf(ln, -1))
	}
}

// logKSlope agrees with a central difference of logK. The digits of logK leave an error
// of 1e-10 in that.
func TestSlopeOfSolubilityProduct(t *testing.T) {
	const step, tolerance = 0.01, 1e-9
	rapid.Check(t, func(t *rapid.T) {
		kelvin := drawKelvin(t, -70, 60)
		for _, s := range Solids() {
			slope := (standard.logK(s, kelvin+step) - standard.logK(s, kelvin-step)) / (2 * step)
			require.InDelta(t, slope, standard.logKSlope(s, kelvin), tolerance, s)
		}
	})
}

// mixed returns the composition of one kg of a solution with a mass (kg) of another.
func mixed(a, b Composition, mass float64) Composition {
	sum := func(x, y float64) float64 { return (x + mass*y) / (1 + mass) }
	return Composition{sum(a.NaCl, b.NaCl), sum(a.KCl, b.KCl), sum(a.CaCl2, b.CaCl2), sum(a.MgCl2, b.MgCl2), sum(a.Other, b.Other)}
}

// Other matter takes no part in the activities, but leaves less water; in density and
// heat capacity it counts as NaCl.
func TestOtherMatter(t *testing.T) {
	const kelvin = SixtyF
	with := Composition{NaCl: 0.20, Other: 0.03}
	a, err := ActivityAt(with, kelvin)
	require.NoError(t, err)
	b, err := ActivityAt(Brine(0.20/0.97), kelvin)
	require.NoError(t, err)
	require.InDelta(t, b.LnWater, a.LnWater, 1e-12)
	for name, f := range map[string]func(Composition, float64) (float64, error){
		"density": Density, "heat capacity": HeatCapacity,
	} {
		x, err := f(with, kelvin)
		require.NoError(t, err)
		y, err := f(Brine(0.23), kelvin)
		require.NoError(t, err)
		require.InEpsilon(t, y, x, 1e-12, name)
	}
}
