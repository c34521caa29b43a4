package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestSteps(t *testing.T) {
	percent, bare, err := ParseStrengthStep("-0.2%")
	require.NoError(t, err)
	require.False(t, bare)
	require.InDelta(t, -0.002, float64(percent), 1e-15)
	gravity, bare, err := ParseGravityStep("0.005")
	require.NoError(t, err)
	require.True(t, bare)
	require.InDelta(t, 0.005, float64(gravity), 0)
	degrees, _, err := ParseDifference("2F")
	require.NoError(t, err)
	require.InDelta(t, 10.0/9, float64(degrees), 1e-12, "a difference has no zero of its own")
	celsius, _, err := Meant(ParseDifference, Metric, "1")
	require.NoError(t, err)
	require.InDelta(t, 1, float64(celsius), 0)
	density, _, err := ParseDensityStep("2kg/m3")
	require.NoError(t, err)
	require.InDelta(t, 2, float64(density), 0)
	salometer, _, err := ParseSalometerStep("1deg")
	require.NoError(t, err)
	require.InDelta(t, 1, float64(salometer), 0)
	baume, _, err := ParseBaumeStep("0.5")
	require.NoError(t, err)
	require.InDelta(t, 0.5, float64(baume), 0)
	_, _, err = ParseStrengthStep("80%")
	require.EqualError(t, err, "out of range; allowed: -50% to 50%")
	_, _, err = ParseDifference("warm")
	require.EqualError(t, err, "not a difference of readings; write it like 2F or 1C")
}
