package brine

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
)

// The trade's blend of 80 parts 23.3 % brine and 20 parts 32 % calcium chloride
// by volume: its ice point is near -15 F, and salt falls out near +9 F (common
// practice for the first; the model's own, anchored, for the second).
func TestBlendDropsSaltBeforeItFreezes(t *testing.T) {
	r, err := Freeze(asked(solution.Composition{NaCl: 0.1824, CaCl2: 0.0695}))
	require.NoError(t, err)
	require.Equal(t, solution.Hydrohalite, r.Cold.First().Solid)
	require.InDelta(t, -15, fahrenheit(r.Cold.Ice.Temperature), 1)
	require.InDelta(t, 9, fahrenheit(r.Cold.Salt.Temperature), 1)
	require.Empty(t, r.OutOfRange)
}

// asked is a plain question about a composition.
func asked(c solution.Composition) FreezeRequest {
	return FreezeRequest{Liquid: balance.Liquid{Name: "this liquid", Composition: c}, StoredAt: quantity.Fahrenheit(60)}
}

func fahrenheit(kelvin float64) float64 { return (kelvin-273.15)*1.8 + 32 }

func TestFreezeNamesItsRange(t *testing.T) {
	r, err := Freeze(asked(solution.Brine(0.265)))
	require.NoError(t, err)
	require.Len(t, r.OutOfRange, 1)
	require.Equal(t, solution.FitCeiling, r.OutOfRange[0].High)
}

func TestFreezeRefusals(t *testing.T) {
	for name, c := range map[string]solution.Composition{
		"too much":       {NaCl: 0.3, CaCl2: 0.4},
		"never dissolve": solution.Brine(0.3),
		"negative":       solution.Brine(-0.1),
	} {
		_, err := Freeze(asked(c))
		faulttest.RequireField(t, err, fault.FieldLiquid, name)
	}
}

// The error's own text, for a reader of logs, is in US units.
func TestInputErrorText(t *testing.T) {
	_, err := Freeze(asked(solution.Composition{NaCl: 0.3, CaCl2: 0.4}))
	require.EqualError(t, err, "liquid: more salt dissolved in this liquid than the model covers; allowed: 50% in all")
}
