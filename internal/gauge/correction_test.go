package gauge

import (
	"math"
	"sort"
	"testing"

	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
)

func fahrenheit(f float64) float64 { return zeroCelsius + (f-32)/1.8 }

// A reading without a temperature misleads: a hydrometer for 60 F shows 23.3 % in cold
// brine that is weaker, and in warm brine that is stronger. Brine of 23.3 % changes by
// about 0.4 kg/m3 for each K, and by 8.4 for each percent.
func TestHydrometerMisreadsOffCalibration(t *testing.T) {
	hydrometer := Instrument{Scale: PercentSalt, Calibration: DefaultCalibration}
	for degrees, want := range map[float64]float64{40: 0.2265, 60: 0.233, 80: 0.2400} {
		kelvin := fahrenheit(degrees)
		got, ok := solution.BrineStrength(densityOf(t, hydrometer, 0.233, kelvin), kelvin)
		require.True(t, ok)
		require.InDelta(t, want, got, 0.0005, "%v F", degrees)
		require.InDelta(t, 0.233, read(t, hydrometer, brine(t, got, kelvin), kelvin), 1e-9, "%v F", degrees)
	}
}

// simion is one row of the density table.
type simion struct{ celsius, percent, density float64 }

// simionRows reads strong brine of Simion et al. (2015), a fit of its own.
func simionRows(t *testing.T) []simion {
	var rows []simion
	for _, row := range published(t, "simion-nacl-density.csv") {
		if row["mass_pct"] >= 20 {
			rows = append(rows, simion{row["temp_C"], row["mass_pct"], row["density"]})
		}
	}
	return rows
}

// at15 finds the strength that a hydrometer marked at 15 C by that table gives to
// a density, between the table's rows; false beyond them.
func at15(rows []simion, density float64) (float64, bool) {
	var marks []simion
	for _, r := range rows {
		if r.celsius == 15 {
			marks = append(marks, r)
		}
	}
	i := sort.Search(len(marks), func(i int) bool { return marks[i].density > density })
	if i == 0 || i == len(marks) {
		return 0, false
	}
	a, b := marks[i-1], marks[i]
	return a.percent + (density-a.density)/(b.density-a.density)*(b.percent-a.percent), true
}

// The same correction from a table alone: what a hydrometer marked at 15 C shows
// in brine of known strength between 0 and 25 C. Both fits agree within 0.024 % of
// strength here; 0.05 leaves as much again, and is a tenth of the correction for
// 20 F. The glass is counted by hand: 25e-6 of the density for each K.
func TestCorrectionAgainstSimion(t *testing.T) {
	rows := simionRows(t)
	checked, worst := 0, 0.0
	for _, r := range rows {
		want, ok := at15(rows, r.density*(1+25e-6*(r.celsius-15)))
		if !ok {
			continue
		}
		checked++
		got := read(t, Instrument{Scale: PercentSalt, Calibration: zeroCelsius + 15}, r.density, zeroCelsius+r.celsius)
		worst = math.Max(worst, math.Abs(100*got-want))
		require.InDelta(t, want, 100*got, 0.05, "%+v", r)
	}
	t.Logf("worst %.3f %% in %d rows", worst, checked)
	require.Greater(t, checked, 15)
}

// A float of 100 g that displaces 80 cm3 at its mark when made stands in a liquid
// of 1250 kg/m3. At 20 K more the glass is 0.0005 larger and displaces 80.04 cm3:
// the same mark then tells of a lighter liquid, and the same liquid shows a mark
// for a heavier one. ISO 649-2 counts with the same 25e-6 for each K.
func TestGlassGrowsWithWarmth(t *testing.T) { glassGrowsWithWarmth(t, &standard) }

func glassGrowsWithWarmth(t testing.TB, k *constants) {
	const made = solution.SixtyF
	water, err := solution.WaterDensity(made)
	require.NoError(t, err)
	gravity := Instrument{Scale: SpecificGravity, Calibration: made}
	mark := 1250 / water
	require.InDelta(t, 0.100/80e-6, densityWith(t, k, gravity, mark, made), 1e-6)
	require.InDelta(t, 0.100/80.04e-6, densityWith(t, k, gravity, mark, made+20), 1e-6)
	require.InDelta(t, 0.100/79.96e-6, densityWith(t, k, gravity, mark, made-20), 1e-6)

	for _, scale := range floating {
		i := Instrument{Scale: scale, Calibration: made}
		require.Greater(t, readWith(t, k, i, 1150, made+20), readWith(t, k, i, 1150, made), scale.Name())
		require.Less(t, readWith(t, k, i, 1150, made-20), readWith(t, k, i, 1150, made), scale.Name())
	}
}

// Calibration has no effect on a weighed sample.
func TestWeighedIgnoresCalibration(t *testing.T) {
	for _, calibration := range []float64{0, solution.SixtyF, 1000} {
		for _, kelvin := range []float64{250, solution.SixtyF, 320} {
			i := Instrument{Scale: Weighed, Calibration: calibration}
			require.Equal(t, 1177.0, densityOf(t, i, 1177, kelvin))
			require.Equal(t, 1177.0, read(t, i, 1177, kelvin))
		}
	}
}

func TestDefaultCalibration(t *testing.T) {
	require.InDelta(t, fahrenheit(60), DefaultCalibration, 1e-9)
}
