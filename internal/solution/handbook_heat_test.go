package solution

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Source: from memory, the values every handbook prints: NaCl takes up 3.88
// kJ/mol at infinite dilution and 25 C, ice 6.01 kJ/mol at 0 C. The tolerance is
// their last digit. The slopes behind them are checked by differences elsewhere.
func TestHeatOfSolution(t *testing.T) { heatOfSolutionByHandbook(t) }

func heatOfSolutionByHandbook(t testing.TB) {
	const tolerance = 10.0 // J/mol
	halite, err := HeatOfSolution(Halite, reference)
	require.NoError(t, err)
	require.InDelta(t, 3880, halite, tolerance)
	ice, err := HeatOfSolution(Ice, zeroCelsius)
	require.NoError(t, err)
	require.InDelta(t, 6010, ice, tolerance)
}

// Source: TEOS-10 (teos10-water.csv). Tolerances: 0.001 % of density, within which
// two good equations for water agree down to -5 C; 0.05 % of heat capacity, twice
// the error of interpolating a table of 5 C steps.
func TestWaterAgainstTEOS10(t *testing.T) { waterAgainstTEOS10(t) }

func waterAgainstTEOS10(t testing.TB) {
	var density, heat worst
	for _, row := range publishedRows(t, "teos10-water.csv") {
		kelvin := zeroCelsius + number(t, row, "temp_C")
		rho, err := WaterDensity(kelvin)
		require.NoError(t, err)
		density.within(t, 1, rho/number(t, row, "density"), 1e-5, row)
		cp, err := HeatCapacity(Composition{}, kelvin)
		require.NoError(t, err)
		heat.within(t, 1, cp/number(t, row, "cp"), 5e-4, row)
	}
	t.Logf("worst: density %.5f %%, heat capacity %.3f %%", 100*density, 100*heat)
}

// Source: from memory, the IAPWS viscosity of water (mPa s). 0.1 % is how far
// the equation that Laliberte took for water strays from it.
func TestViscosityOfWater(t *testing.T) { viscosityOfWater(t) }

func viscosityOfWater(t testing.TB) {
	for celsius, want := range map[float64]float64{0: 1.792, 20: 1.0016, 25: 0.890} {
		got, err := Viscosity(Composition{}, zeroCelsius+celsius)
		require.NoError(t, err)
		require.InEpsilon(t, want, 1e3*got, 1e-3, "%g C", celsius)
	}
}

// Source: from memory, 4.1855 J/(g K) for water at 15 C, an old calorimetric
// value; TEOS-10 is 0.07 % above it.
func TestHeatCapacityOfWater(t *testing.T) {
	got, err := HeatCapacity(Composition{}, zeroCelsius+15)
	require.NoError(t, err)
	require.InEpsilon(t, 4185.5, got, 1e-3)
}

// Source: from memory, worked values for Laliberte's model with NaCl. Density
// and viscosity are equal to the last digits, so the tolerance is that of
// rounding; heat capacity differs by less than 0.1 J/(kg K), since water comes
// from TEOS-10 here. CRC, Lange and Simion check the densities as well; the
// coefficients are checked against their table.
func TestLaliberteWorkedValues(t *testing.T) { laliberteWorkedValues(t) }

func laliberteWorkedValues(t testing.TB) {
	require.InEpsilon(t, 1002.6250120185854, densityAt(t, Brine(0.0037838838), 0), 1e-12)
	mu, err := Viscosity(Brine(0.005810), zeroCelsius+5)
	require.NoError(t, err)
	require.InEpsilon(t, 1.5285828581961419e-3, mu, 1e-12)
	cp, err := HeatCapacity(Brine(0.00398447), zeroCelsius+1.5)
	require.NoError(t, err)
	require.InDelta(t, 4186.575, cp, 0.1)
}
