package gauge

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
)

const zeroCelsius = 273.15 // K

// published reads a table of testdata/published, whose first lines name the
// source; an empty cell is left out.
func published(t testing.TB, name string) []map[string]float64 {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 10)
	var rows []map[string]float64
	for _, cells := range all[1:] {
		row := map[string]float64{}
		for i, heading := range all[0] {
			if cells[i] == "" {
				continue
			}
			row[heading], err = strconv.ParseFloat(cells[i], 64)
			require.NoError(t, err)
		}
		rows = append(rows, row)
	}
	return rows
}

// read is a reading that must be on the scale.
func read(t require.TestingT, i Instrument, density, kelvin float64) float64 {
	return readWith(t, &standard, i, density, kelvin)
}

func readWith(t require.TestingT, k *constants, i Instrument, density, kelvin float64) float64 {
	reading, ok := i.reading(k, density, kelvin)
	require.True(t, ok, "%+v in %v kg/m3 at %v K", i, density, kelvin)
	return reading
}

// densityOf is a density that must exist.
func densityOf(t require.TestingT, i Instrument, reading, kelvin float64) float64 {
	return densityWith(t, &standard, i, reading, kelvin)
}

func densityWith(t require.TestingT, k *constants, i Instrument, reading, kelvin float64) float64 {
	rho, ok := i.density(k, reading, kelvin)
	require.True(t, ok, "%+v at %v, %v K", i, reading, kelvin)
	return rho
}

// brine is the density of brine from the density fit.
func brine(t require.TestingT, strength, kelvin float64) float64 {
	rho, err := solution.Density(solution.Brine(strength), kelvin)
	require.NoError(t, err)
	return rho
}

// Source: Lange's Handbook, 15th ed., Table 5.13 (lange-nacl.csv): brine of 15 C
// over water of 15 C. The table's steps are uneven by about 0.001; a step of 1 %
// is 0.0075, hence 0.27 % for 0.002.
func TestSpecificGravityAgainstLange(t *testing.T) {
	const kelvin = zeroCelsius + 15
	gravity := Instrument{Scale: SpecificGravity, Calibration: kelvin}
	for _, row := range published(t, "lange-nacl.csv") {
		strength, want := row["mass_pct"]/100, row["specific_gravity"]
		require.InDelta(t, want, read(t, gravity, brine(t, strength, kelvin), kelvin), 0.002, "%v", row)

		back, ok := solution.BrineStrength(densityOf(t, gravity, want, kelvin), kelvin)
		require.True(t, ok, "%v", row)
		require.InDelta(t, strength, back, 0.0027, "%v", row)
	}
}

// Source: CRC Handbook, 102nd ed. (crc-2021-nacl.csv), density at 20 C. Water at
// 20 C has 998.2071 kg/m3 (teos10-water.csv). The Baume scale is 145 - 145/SG for
// liquids heavier than water (NBS Circular 19, from memory), marked here at 20 C.
func TestScalesAgainstCRC(t *testing.T) { scalesAgainstCRC(t, &standard) }

func scalesAgainstCRC(t testing.TB, k *constants) {
	const kelvin, water = zeroCelsius + 20, 998.2071
	for _, row := range published(t, "crc-2021-nacl.csv") {
		density := 1000 * row["density_20C_g_cm3"]
		gravity := density / water
		require.InDelta(t, gravity, readWith(t, k, Instrument{Scale: SpecificGravity, Calibration: kelvin}, density, kelvin), 2e-5, "%v", row)
		require.InDelta(t, 145-145/gravity, readWith(t, k, Instrument{Scale: Baume, Calibration: kelvin}, density, kelvin), 0.003, "%v", row)
		require.Equal(t, density, readWith(t, k, Instrument{Scale: Weighed, Calibration: kelvin}, density, kelvin))
		if row["mass_pct"] >= 1 {
			percent := readWith(t, k, Instrument{Scale: PercentSalt, Calibration: kelvin}, density, kelvin)
			require.InDelta(t, row["mass_pct"]/100, percent, 0.0007, "%v", row)
		}
	}
}

// Source: Salt Institute solubility table (salt-institute-solubility.csv): brine
// is saturated at 26.395 % and 60 F, and is 100 degrees there; the scale divides
// that evenly (common practice, no source), which puts 23.3 % at 88.3.
func TestSalometer(t *testing.T) { salometerAgainstItsTable(t, &standard) }

func salometerAgainstItsTable(t testing.TB, k *constants) {
	saturated := 0.0
	for _, row := range published(t, "salt-institute-solubility.csv") {
		if row["T_F"] == 60 {
			saturated = row["sat_mass_pct"] / 100
		}
	}
	require.Equal(t, 0.26395, saturated)
	salometer := Instrument{Scale: Salometer, Calibration: DefaultCalibration}
	for strength, degrees := range map[float64]float64{0: 0, saturated / 4: 25, 0.233: 88.27, saturated: 100} {
		density := brine(t, strength, solution.SixtyF)
		require.InDelta(t, degrees, readWith(t, k, salometer, density, solution.SixtyF), 0.005)
	}
}

// Saturated brine has a specific gravity of 1.204 and 24.6 degrees Baume at 60 F
// (salometer tables, from memory); beside it, Baume follows from gravity, and pure
// water shows 1, 0 %, 0 degrees on every scale.
func TestSaturatedBrineAndWater(t *testing.T) {
	const kelvin = solution.SixtyF
	density := brine(t, 0.26395, kelvin)
	gravity := read(t, Instrument{Scale: SpecificGravity, Calibration: kelvin}, density, kelvin)
	baume := read(t, Instrument{Scale: Baume, Calibration: kelvin}, density, kelvin)
	require.InDelta(t, 1.204, gravity, 0.001)
	require.InDelta(t, 24.6, baume, 0.1)
	require.InDelta(t, 145-145/gravity, baume, 1e-9)

	water, err := solution.WaterDensity(kelvin)
	require.NoError(t, err)
	for scale, want := range map[Scale]float64{PercentSalt: 0, SpecificGravity: 1, Salometer: 0, Baume: 0, Weighed: water} {
		require.InDelta(t, want, read(t, Instrument{Scale: scale, Calibration: kelvin}, water, kelvin), 1e-9, scale.Name())
	}
}
