package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// bareIs checks what a bare 40 is to a metric crew, in its own units; with a unit it is the same to
// all.
func bareIs[Q Quantity](t *testing.T, parse func(string) (Q, bool, error), want string) {
	t.Helper()
	q, bare, err := Meant(parse, Metric, "40")
	require.NoError(t, err)
	require.True(t, bare)
	written, _, err := parse(want)
	require.NoError(t, err)
	require.Equal(t, written, q, want)
	us, _, err := Meant(parse, US, "40")
	require.NoError(t, err)
	plain, _, err := parse("40")
	require.NoError(t, err)
	require.Equal(t, plain, us)
	for _, sys := range []System{US, Metric} {
		q, bare, err := Meant(parse, sys, want)
		require.NoError(t, err)
		require.False(t, bare)
		require.Equal(t, written, q)
	}
}

func TestBareNumbersOfACrew(t *testing.T) {
	bareIs(t, ParseTemperature, "40C")
	bareIs(t, ParseVolume, "40L")
	bareIs(t, ParseMass, "40kg")
	bareIs(t, ParseStrength, "40%")
	bareIs(t, ParseDensity, "40kg/m3")
	bareIs(t, ParseFlow, "40L/min")
	bareIs(t, ParseSpeed, "40km/h")
	bareIs(t, ParseRatePerLength, "40L/km")
	bareIs(t, ParseRatePerArea, "40L/ha")
	bareIs(t, ParseLength, "40km")
	bareIs(t, ParseDepth, "40cm")
	bareIs(t, ParseDuration, "40min")
	bareIs(t, ParsePricePerVolume, "40/L")
	bareIs(t, ParsePricePerMass, "40/t")
	_, _, err := Meant(ParseTemperature, Metric, "200")
	require.ErrorContains(t, err, "out of range")
	_, _, err = Meant(ParseVolume, Metric, "much")
	require.Error(t, err)
}
