package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestParseDepth(t *testing.T) {
	for text, want := range map[string]Depth{
		"42in": 42 * Inch, "42": 42 * Inch, "3ft6in": 42 * Inch, "3ft 6in": 42 * Inch, "3.5ft": 42 * Inch, "106.68cm": 42 * Inch,
		"1066.8mm": 42 * Inch, "1.0668m": 42 * Inch, "0in": 0, "10.25in": 10.25 * Inch,
	} {
		got, bare, err := ParseDepth(text)
		require.NoError(t, err, text)
		require.InDelta(t, float64(want), float64(got), 1e-12, text)
		require.Equal(t, text == "42", bare, text)
	}
	for _, text := range []string{"", "-1in", "3ft14in", "3ft6", "3ft6cm", "in", "101m", "NaN"} {
		_, _, err := ParseDepth(text)
		require.Error(t, err, text)
	}
	require.Equal(t, "42 in", (42 * Inch).In(US).String())
	require.Equal(t, "106.7 cm", (42 * Inch).In(Metric).String())
}

// Loose salt of 80 lb/ft3 is 1 281 kg/m3: 80 x 0.45359237 / 0.3048^3.
func TestBulkDensity(t *testing.T) {
	requireRoundTrip(t, ParseBulkDensity, 100, 5000, Metric)
	requireRoundTrip(t, ParseAngle, 0, 90, US, Metric)
	requireShown(t, 80*PoundPerCubicFoot, US, "80 lb/ft3")
	requireShown(t, 80*PoundPerCubicFoot, Metric, "1 281 kg/m3")
	yards, _, err := ParseBulkDensity("1.08ton/yd3")
	require.NoError(t, err)
	requireShown(t, yards, US, "80 lb/ft3")
	requireShown(t, Angle(32), US, "32 deg")
}
