package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// named compares a value with a cell of a table. An empty cell stands for minus
// infinity, the logarithm of nothing.
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
func TestPitzerValues(t *testing.T) { pitzerValues(t, &standard) }

func pitzerValues(t testing.TB, k *coefficients) {
	const logarithm, joule = 1e-8, 0.1
	for _, row := range referenceRows(t, "pitzer-values.csv") {
		c, kelvin := composition(t, row), zeroCelsius+number(t, row, "temp_C")
		a, err := k.activityAt(c, kelvin)
		require.NoError(t, err)
		named(t, row, "ln_water", a.LnWater, logarithm)
		named(t, row, "ln_Cl", a.LnChloride, logarithm)
		for s, heading := range [saltCount]string{NaCl: "ln_Na", KCl: "ln_K", CaCl2: "ln_Ca", MgCl2: "ln_Mg"} {
			named(t, row, heading, a.LnCation[s], logarithm)
		}
		named(t, row, "heat", k.heatTaken(c, kelvin), joule)
	}
}

// Source: as above (testdata/reference/solids-values.csv). log10 K is met to the
// rounding of its large terms; the heat to that of the gas constant, 3e-7.
func TestSolidsValues(t *testing.T) { solidsValues(t, &standard) }

func solidsValues(t testing.TB, k *coefficients) {
	for _, row := range referenceRows(t, "solids-values.csv") {
		solid, ok := solidNames[row["solid"]]
		if row["solid"] == "Ice(s)" {
			solid, ok = Ice, true
		}
		require.True(t, ok, "%v", row)
		kelvin := zeroCelsius + number(t, row, "temp_C")
		named(t, row, "log10_K", k.logK(solid, kelvin), 1e-10)
		require.InEpsilon(t, number(t, row, "heat"), k.published().heatOfSolution(solid, kelvin), 1e-6, "%v", row)
	}
}

// Source: as above (testdata/reference/laliberte-values.csv): the same arithmetic on
// the same coefficients, so it is met to the 12 digits of the table but for
// rounding.
func TestLaliberteValues(t *testing.T) { laliberteValues(t, &standard) }

func laliberteValues(t testing.TB, k *coefficients) {
	const tolerance = 1e-10
	for _, row := range referenceRows(t, "laliberte-values.csv") {
		c, celsius := composition(t, row), number(t, row, "temp_C")
		require.InEpsilon(t, number(t, row, "density"), k.density(c, celsius), tolerance, "%v", row)
		salts := k.heatCapacity(c, celsius) - 1e3*c.Water()*k.heatOfWater(celsius)
		require.InDelta(t, number(t, row, "cp_of_salts"), salts, 1e3*tolerance, "%v", row)
	}
}

// Source: TEOS-10 (teos10-water.csv). Every 5 C the program's table holds the value
// itself, rounded to 0.01 J/(kg K).
func TestWaterHeatAtItsKnots(t *testing.T) { waterHeatAtItsKnots(t, &standard) }

func waterHeatAtItsKnots(t testing.TB, k *coefficients) {
	compared := 0
	for _, row := range publishedRows(t, "teos10-water.csv") {
		celsius := number(t, row, "temp_C")
		if math.Mod(celsius, waterHeatStep) != 0 {
			continue
		}
		require.InDelta(t, number(t, row, "cp"), k.heatCapacity(Composition{}, celsius), 0.006, "%v", row)
		compared++
	}
	require.Equal(t, 10, compared)
}

// Beyond that table, below -5 and above 40 C, the heat capacity of water is a smooth
// curve: its fourth differences stay below 0.5 J/(kg K), where one wrong fourth
// digit makes them 1 to 6.
func TestWaterHeatIsSmooth(t *testing.T) { waterHeatIsSmooth(t, &standard) }

func waterHeatIsSmooth(t testing.TB, k *coefficients) {
	h := &k.waterHeat
	for i := 2; i+2 < len(h); i++ {
		fourth := h[i-2] - 4*h[i-1] + 6*h[i] - 4*h[i+1] + h[i+2]
		require.InDelta(t, 0, fourth, 5e-4, "around %g C", waterHeatStart+waterHeatStep*float64(i))
	}
}

// Source: CODATA 2018 for the gas constant, to the digits used; Pitzer (1973) for b;
// Kell (1975), from memory, beside which TEOS-10 stands.
func TestConstants(t *testing.T) { constantsByTheirSources(t, &standard) }

func constantsByTheirSources(t testing.TB, k *coefficients) {
	require.InDelta(t, 8.314462618, k.gas, 5e-6)
	require.Equal(t, 1.2, k.debyeB)
	require.Equal(t, [7]float64{999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12, 16.87985e-3}, k.waterDensity)
}
