package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Slips, each with its answer; and what looks like one and is none.
func TestSlips(t *testing.T) {
	for text, want := range map[string]string{
		"0.233":  "is that 0.233% or 23.3%? allowed: with the percent sign",
		"0.02":   "is that 0.02% or 2%? allowed: with the percent sign",
		"1.178":  "is that 1.178%, or a gravity? allowed: with the percent sign, or --sg 1.178",
		"1.18":   "is that 1.18%, or a gravity? allowed: with the percent sign, or --sg 1.18",
		"233":    "out of range; allowed: 0% to 100%; did you mean 23.3%?",
		"233%":   "out of range; allowed: 0% to 100%; did you mean 23.3%?",
		"1178":   "out of range; allowed: 0% to 100%; a gravity of 1.178 goes with --sg",
		"5000":   "out of range; allowed: 0% to 100%",
		"23.3lb": `"lb" is no unit of a strength; allowed: %`,
	} {
		_, _, err := ParseTypedStrength(text)
		require.EqualError(t, err, want, text)
	}
	for text, want := range map[string]Strength{"0.233%": 0.00233, "23.3": 0.233, "1.2": 0.012, "1.178%": 0.01178, "0": 0, "0.01": 0.0001, "0.5": 0.005, "100": 1} {
		got, _, err := ParseTypedStrength(text)
		require.NoError(t, err, text)
		require.InDelta(t, float64(want), float64(got), 1e-15, text)
	}
	for text, want := range map[string]string{
		"23.3":  "out of range; allowed: 0.5 to 2; a percent reading goes with --hydrometer",
		"23.3%": `"%" is no unit of a specific gravity; allowed: a plain number; a percent reading goes with --hydrometer`,
		"1178":  "out of range; allowed: 0.5 to 2; did you mean 1.178?",
		"88":    "out of range; allowed: 0.5 to 2",
	} {
		_, _, err := ParseTypedGravity(text)
		require.EqualError(t, err, want, text)
	}
	_, _, err := ParseTypedBaume("1.178")
	require.EqualError(t, err, "is that 1.178 degrees, or a gravity? allowed: with its unit, like 1.178deg, or --sg 1.178")
	_, _, err = ParseTypedSalometer("1.18")
	require.Error(t, err)
	degrees, _, err := ParseTypedBaume("1.178deg")
	require.NoError(t, err)
	require.InDelta(t, 1.178, float64(degrees), 1e-12)
	_, _, err = ParseTypedMoisture("0.016")
	require.EqualError(t, err, "is that 0.016% or 1.6%? allowed: with the percent sign")
	for _, text := range []string{"1.6", "0.016%", "0", "0.5"} {
		_, _, err := ParseTypedMoisture(text)
		require.NoError(t, err, text)
	}
}
