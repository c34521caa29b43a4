package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// named compares a value with a cell of a table; an empty cell means that there is
// none, which is minus infinity as a logarithm.
func named(t testing.TB, row map[string]string, heading string, got, tolerance float64) {
	t.Helper()
	if row[heading] == "" {
		require.True(t, math.IsInf(got, -1), "%s %v", heading, row)
		return
	}
	require.InDelta(t, number(t, row, heading), got, tolerance, "%s %v", heading, row)
}

// Source: the literature's equations evaluated apart from the program
// (testdata/reference/pitzer-values.csv). They are met to 1e-8 in the logarithms:
// the table's J is exact, and the expansion in the program errs by 1e-9, times the
// molality. The heat is met to 0.1 J/kg: the program's gas constant is rounded by
// 3e-7, and its derivative is a difference.
func TestPitzerValues(t *testing.T) { pitzerValues(t) }

func pitzerValues(t testing.TB) {
	const logarithm, joule = 1e-8, 0.1
	for _, row := range referenceRows(t, "pitzer-values.csv") {
		c, kelvin := composition(t, row), zeroCelsius+number(t, row, "temp_C")
		a, err := ActivityAt(c, kelvin)
		require.NoError(t, err)
		named(t, row, "ln_water", a.LnWater, logarithm)
		named(t, row, "ln_Cl", a.LnChloride, logarithm)
		for s, heading := range [saltCount]string{NaCl: "ln_Na", KCl: "ln_K", CaCl2: "ln_Ca", MgCl2: "ln_Mg"} {
			named(t, row, heading, a.LnCation[s], logarithm)
		}
		heat, err := HeatTaken(c, kelvin)
		require.NoError(t, err)
		named(t, row, "heat", heat, joule)
	}
}

// Source: as above (testdata/reference/solids-values.csv). log10 K is met to the
// rounding of its large terms; the heat to that of the gas constant, 3e-7.
func TestSolidsValues(t *testing.T) { solidsValues(t) }

func solidsValues(t testing.TB) {
	for _, row := range referenceRows(t, "solids-values.csv") {
		solid, ok := solidNames[row["solid"]]
		if row["solid"] == "Ice(s)" {
			solid, ok = Ice, true
		}
		require.True(t, ok, "%v", row)
		kelvin := zeroCelsius + number(t, row, "temp_C")
		named(t, row, "log10_K", solid.logK(kelvin), 1e-10)
		heat, err := HeatOfSolution(solid, kelvin)
		require.NoError(t, err)
		require.InEpsilon(t, number(t, row, "heat"), heat, 1e-6, "%v", row)
	}
}

// Source: as above (testdata/reference/laliberte-values.csv): the same arithmetic on
// the same coefficients, so it is met to the 12 digits of the table but for
// rounding.
func TestLaliberteValues(t *testing.T) { laliberteValues(t) }

func laliberteValues(t testing.TB) {
	const tolerance = 1e-10
	for _, row := range referenceRows(t, "laliberte-values.csv") {
		c, kelvin := composition(t, row), zeroCelsius+number(t, row, "temp_C")
		rho, err := Density(c, kelvin)
		require.NoError(t, err)
		require.InEpsilon(t, number(t, row, "density"), rho, tolerance, "%v", row)
		mu, err := Viscosity(c, kelvin)
		require.NoError(t, err)
		require.InEpsilon(t, number(t, row, "viscosity"), 1e3*mu, tolerance, "%v", row)
		cp, err := HeatCapacity(c, kelvin)
		require.NoError(t, err)
		water := 1e3 * c.Water() * waterHeatAt(kelvin-zeroCelsius)
		require.InDelta(t, number(t, row, "cp_of_salts"), cp-water, 1e3*tolerance, "%v", row)
	}
}

// Source: TEOS-10 (teos10-water.csv). Every 5 C the program's table holds the value
// itself, rounded to 0.01 J/(kg K).
func TestWaterHeatAtItsKnots(t *testing.T) { waterHeatAtItsKnots(t) }

func waterHeatAtItsKnots(t testing.TB) {
	compared := 0
	for _, row := range publishedRows(t, "teos10-water.csv") {
		celsius := number(t, row, "temp_C")
		if math.Mod(celsius, waterHeatStep) != 0 {
			continue
		}
		cp, err := HeatCapacity(Composition{}, zeroCelsius+celsius)
		require.NoError(t, err)
		require.InDelta(t, number(t, row, "cp"), cp, 0.006, "%v", row)
		compared++
	}
	require.Equal(t, 10, compared)
}

// Beyond that table, below -5 and above 40 C, the heat capacity of water is a smooth
// curve: its fourth differences stay below 0.5 J/(kg K), where one wrong fourth
// digit makes them 1 to 6.
func TestWaterHeatIsSmooth(t *testing.T) { waterHeatIsSmooth(t) }

func waterHeatIsSmooth(t testing.TB) {
	h := waterHeat
	for i := 2; i+2 < len(h); i++ {
		fourth := h[i-2] - 4*h[i-1] + 6*h[i] - 4*h[i+1] + h[i+2]
		require.InDelta(t, 0, fourth, 5e-4, "around %g C", waterHeatStart+waterHeatStep*float64(i))
	}
}

// Source: CODATA 2018 for the gas constant, to the digits used; Pitzer (1973) for b;
// Kell (1975) and Laliberte's water, from memory, beside which TEOS-10 and the
// viscosities of water stand.
func TestConstants(t *testing.T) { constantsByTheirSources(t) }

func constantsByTheirSources(t testing.TB) {
	require.InDelta(t, 8.314462618, constants.gas, 5e-6)
	require.Equal(t, 1.2, constants.debyeB)
	require.Equal(t, [7]float64{999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12, 16.87985e-3}, kell)
	require.Equal(t, [4]float64{246, 137.37, 5.2842, 0.05594}, waterFlow)
}
