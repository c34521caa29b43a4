package gauge

import (
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Every scale has its row, and is found by its name.
func TestScales(t *testing.T) {
	var names []string
	for _, s := range Scales() {
		names = append(names, s.Name())
		found, ok := ScaleNamed(s.Name())
		require.True(t, ok)
		require.Equal(t, s, found)
		for _, text := range []string{s.Words(), s.Kind(), s.Help()} {
			require.NotEmpty(t, text, s.Name())
		}
	}
	require.Equal(t, []string{"hydrometer", "sg", "salometer", "baume", "weigh"}, names)
	require.False(t, Weighed.Floats())
	_, ok := ScaleNamed("balance")
	require.False(t, ok)
}

// A reading is shown as the text that it was parsed from, and is bare only without a unit.
// A row of the journal holds the number of that text, and FromRow returns the reading.
func TestReadingsAsText(t *testing.T) {
	for scale, c := range map[Scale]struct {
		text, shown string
		reading, in float64
	}{
		PercentSalt:     {"23.3%", "23.3%", 0.233, 23.3},
		SpecificGravity: {"1.178", "1.178", 1.178, 1.178},
		Salometer:       {"88.3deg", "88.3 deg", 88.3, 88.3},
		Baume:           {"21.9 deg", "21.9 deg", 21.9, 21.9},
		Weighed:         {"9.82lb/gal", "9.82 lb/gal", 9.82 * 0.45359237 / 3.785411784e-3, 9.82},
	} {
		reading, bare, err := scale.Parse(c.text)
		require.NoError(t, err, scale.Name())
		require.InEpsilon(t, c.reading, reading, 1e-14, scale.Name())
		require.Equal(t, scale == SpecificGravity, bare, scale.Name())
		require.Equal(t, c.shown, scale.Quantity(reading).In(quantity.US).String())
		require.InEpsilon(t, c.in, scale.ToRow(reading), 1e-14, scale.Name())

		_, bare, err = scale.Parse("1")
		require.NoError(t, err, scale.Name())
		require.True(t, bare, scale.Name())
		_, _, err = scale.Parse("1 furlong")
		require.ErrorContains(t, err, "no unit of", scale.Name())
	}
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom(Scales()).Draw(t, "scale")
		reading := rapid.Float64Range(0.01, 2000).Draw(t, "reading")
		require.InEpsilon(t, reading, scale.FromRow(scale.ToRow(reading)), 1e-14)
	})
}

// A reading has the type of its scale.
func TestReadingsAsQuantities(t *testing.T) {
	for scale, want := range map[Scale]quantity.Quantity{
		PercentSalt:     quantity.Strength(0.5),
		SpecificGravity: quantity.SpecificGravity(0.5),
		Salometer:       quantity.SalometerDegrees(0.5),
		Baume:           quantity.BaumeDegrees(0.5),
		Weighed:         quantity.Density(0.5),
	} {
		require.Equal(t, want, scale.Quantity(0.5))
	}
}

// Beyond a scale of strength the nearest reading is its end. Without a valid calibration
// there is none.
func TestNearest(t *testing.T) {
	const kelvin = solution.SixtyF
	for scale, ends := range map[Scale][2]float64{PercentSalt: {0, 0.28}, Salometer: {0, 28 / 0.26395}} {
		i := Instrument{Scale: scale, Calibration: DefaultCalibration}
		for end, density := range []float64{900, 1300} {
			got, ok := i.Nearest(density, kelvin)
			require.True(t, ok, scale.Name())
			require.InDelta(t, ends[end], got, 1e-12, scale.Name())
		}
		got, ok := i.Nearest(1150, kelvin)
		require.True(t, ok)
		require.Equal(t, read(t, i, 1150, kelvin), got)
	}
	for _, scale := range floating {
		_, ok := Instrument{Scale: scale, Calibration: 0}.Nearest(1150, kelvin) // marked for 0 K
		require.False(t, ok, scale.Name())
	}
}
