package solution

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Source: from memory, the values every handbook prints: NaCl takes up 3.88
// kJ/mol at infinite dilution and 25 C, ice 6.01 kJ/mol at 0 C. The tolerance is
// their last digit. The slopes behind them are checked by differences elsewhere.
func TestHeatOfSolution(t *testing.T) { heatOfSolutionByHandbook(t, &standard) }

func heatOfSolutionByHandbook(t testing.TB, k *coefficients) {
	const tolerance = 10.0 // J/mol
	require.InDelta(t, 3880, k.published().heatOfSolution(Halite, reference), tolerance)
	require.InDelta(t, 6010, k.published().heatOfSolution(Ice, zeroCelsius), tolerance)
}

// Source: TEOS-10 (teos10-water.csv). Tolerances: 0.001 % of density, within which
// two good equations for water agree down to -5 C; 0.05 % of heat capacity, twice
// the error of interpolating a table of 5 C steps.
func TestWaterAgainstTEOS10(t *testing.T) { waterAgainstTEOS10(t, &standard) }

func waterAgainstTEOS10(t testing.TB, k *coefficients) {
	var density, heat worst
	for _, row := range publishedRows(t, "teos10-water.csv") {
		celsius := number(t, row, "temp_C")
		density.within(t, 1, k.density(Composition{}, celsius)/number(t, row, "density"), 1e-5, row)
		heat.within(t, 1, k.heatCapacity(Composition{}, celsius)/number(t, row, "cp"), 5e-4, row)
	}
	t.Logf("worst: density %.5f %%, heat capacity %.3f %%", 100*density, 100*heat)
}

// Source: from memory, 4.1855 J/(g K) for water at 15 C, an old calorimetric
// value; TEOS-10 is 0.07 % above it.
func TestHeatCapacityOfWater(t *testing.T) {
	got, err := HeatCapacity(Composition{}, zeroCelsius+15)
	require.NoError(t, err)
	require.InEpsilon(t, 4185.5, got, 1e-3)
}

// Source: from memory, worked values for Laliberte's model with NaCl. Density is
// equal to the last digits, so the tolerance is that of rounding; heat capacity
// differs by less than 0.1 J/(kg K), since water comes from TEOS-10 here. CRC, Lange
// and Simion check the densities as well; the coefficients are checked against their
// table.
func TestLaliberteWorkedValues(t *testing.T) { laliberteWorkedValues(t, &standard) }

func laliberteWorkedValues(t testing.TB, k *coefficients) {
	require.InEpsilon(t, 1002.6250120185854, k.density(Brine(0.0037838838), 0), 1e-12)
	require.InDelta(t, 4186.575, k.heatCapacity(Brine(0.00398447), 1.5), 0.1)
}
