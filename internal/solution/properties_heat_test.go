package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// heatPerMole returns HeatTaken per mole of salt at a molality.
func heatPerMole(t testing.TB, s Salt, molality, kelvin float64) float64 {
	t.Helper()
	salt := molality * s.MolarMass()
	heat, err := HeatTaken(Pure(s, salt/(1+salt)), kelvin)
	require.NoError(t, err)
	return heat * (1 + salt) / molality
}

// Per mole, the heat taken by a thin solution tends to the heat of solution at
// infinite dilution. At 1e-6 mol/kg the limiting law leaves 2 J/mol for NaCl and
// 10 J/mol for a doubly charged cation.
func TestThinSolutionTakesHeatOfSolution(t *testing.T) {
	for s := range saltCount {
		require.InDelta(t, standard.published().heatOfSolution(dissolvingFrom[s], reference), heatPerMole(t, s, 1e-6, reference), 15, s)
	}
}

// Source: from memory, the Debye-Hueckel slope of enthalpy of water at 25 C, 1.98
// kJ/mol per root of mol/kg: how a 1:1 salt's heat leaves its limit. Between 1e-6
// and 1e-5 mol/kg the next term is below 0.3 %; 1 % allows for the digits.
func TestHeatLeavesItsLimitByDebyeHueckel(t *testing.T) {
	const thin, thinner = 1e-5, 1e-6
	change := heatPerMole(t, NaCl, thin, reference) - heatPerMole(t, NaCl, thinner, reference)
	require.InEpsilon(t, 1980, change/(math.Sqrt(thin)-math.Sqrt(thinner)), 0.01)
}

// dissolvingHeat returns the heat in J/mol of dissolving a little more of the
// crystal in a solution: its HeatTaken after less that before.
func dissolvingHeat(t *rapid.T, s Salt, c Composition, kelvin float64) float64 {
	const little = 1e-3 // mol per kg of solution
	solid := dissolvingFrom[s]
	mass := little * solid.MolarMass()
	crystal := Pure(s, s.MolarMass()/solid.MolarMass())
	taken := func(added float64) float64 {
		heat, err := HeatTaken(mixed(c, crystal, added), kelvin)
		require.NoError(t, err)
		return heat * (1 + added)
	}
	return (taken(mass) - taken(-mass)) / (2 * little)
}

// The heat of dissolving crystals in a solution that is saturated with them fixes
// how solubility changes with temperature (van 't Hoff at saturation):
//
//	heat = R T^2 (d ln Q/dm) (dm/dT)
//
// with Q the solid's activity product. The right side takes no enthalpy, so this checks the heats, the crystal water in them, and the activities together.
// The tolerance, 2 J/mol, is twice what the differences leave.
func TestHeatAgreesWithSolubility(t *testing.T) {
	const step, tolerance = 0.1, 2.0
	// Where the crystal that the heat is counted from is the stable solid.
	for s, celsius := range map[Salt][2]float64{NaCl: {1, 24}, KCl: {-10, 24}, CaCl2: {-40, 20}, MgCl2: {0, 24}} {
		rapid.Check(t, func(t *rapid.T) {
			kelvin := drawKelvin(t, celsius[0], celsius[1])
			saturated := func(kelvin float64) Composition {
				w, solid, err := standard.published().Solubility(s, kelvin)
				require.NoError(t, err)
				require.Equal(t, dissolvingFrom[s], solid)
				return Pure(s, w)
			}
			c := saturated(kelvin)
			rise := (saturated(kelvin+step).Molality(s) - saturated(kelvin-step).Molality(s)) / (2 * step)
			want := standard.gas * kelvin * kelvin * productSlope(s, c.Molality(s), kelvin) * rise
			require.InDelta(t, want, dissolvingHeat(t, s, c, kelvin), tolerance, s)
		})
	}
}

// productSlope returns d ln Q/dm of the crystal of a salt at molality m.
func productSlope(s Salt, m, kelvin float64) float64 {
	const step = 1e-4
	ln := func(x float64) float64 {
		var at molality
		at[s] = x
		a := activityOf(at, kelvin)
		return math.Ln10 * standard.logProduct(dissolvingFrom[s], &a)
	}
	return (ln(m+step) - ln(m-step)) / (2 * step)
}

// Making brine from salt at 50 F cools it; water alone takes no heat.
func TestMakingBrineCools(t *testing.T) {
	const fiftyF = zeroCelsius + 10
	heat, err := HeatTaken(Composition{}, fiftyF)
	require.NoError(t, err)
	require.Zero(t, heat)
	heat, err = HeatTaken(Brine(0.233), fiftyF)
	require.NoError(t, err)
	cp, err := HeatCapacity(Brine(0.233), fiftyF)
	require.NoError(t, err)
	// Common practice, no source: the tank gets a few degrees F colder.
	require.Greater(t, 1.8*heat/cp, 1.0)
	require.Less(t, 1.8*heat/cp, 10.0)
}
