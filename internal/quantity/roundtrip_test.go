package quantity

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// requireRoundTrip draws values of a type over its range, writes each in full in
// both systems, and reads it back. A type whose unit is SI itself must come back
// to the bit; the others may be off by a few roundings.
func requireRoundTrip[Q interface {
	~float64
	Quantity
}](t *testing.T, parse func(string) (Q, bool, error), low, high float64, inSI ...System) {
	const digits = 2e-15
	rapid.Check(t, func(t *rapid.T) {
		// Small values matter as much as those near the upper end.
		want := Q(rapid.OneOf(
			rapid.Float64Range(low, high),
			rapid.Float64Range(low, low+(high-low)*1e-6),
			rapid.SampledFrom([]float64{low, high}),
		).Draw(t, "SI"))
		for _, sys := range []System{US, Metric} {
			shown := want.In(sys)
			text := strconv.FormatFloat(shown.Value, 'g', -1, 64) + shown.Unit
			got, bare, err := parse(text)
			require.NoError(t, err, text)
			require.Equal(t, shown.Unit == "", bare, text)
			require.InDelta(t, float64(want), float64(got), digits*math.Abs(float64(want))+1e-300, text)
			for _, s := range inSI {
				require.True(t, s != sys || got == want, "%s: %v, not %v", text, got, want)
			}
		}
	})
}

func TestRoundTrip(t *testing.T) {
	requireRoundTrip(t, ParseStrength, 0, 1)
	requireRoundTrip(t, ParseTemperature, 173.15, 423.15)
	requireRoundTrip(t, ParseVolume, 0, 1e5)
	requireRoundTrip(t, ParseMass, 0, 1e8, Metric)
	requireRoundTrip(t, ParseDensity, 1, 1e4, Metric)
	requireRoundTrip(t, ParseFlow, 0, 10)
	requireRoundTrip(t, ParseSpecificGravity, 0.5, 2, US, Metric)
	requireRoundTrip(t, ParseSalometer, -10, 120, US, Metric)
	requireRoundTrip(t, ParseBaume, -10, 70, US, Metric)
}
