package fault

import (
	"cmp"
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// The first rule that is broken is the one reported, with its quantities in their units.
func TestIf(t *testing.T) {
	require.NoError(t, If(false, FieldVolume, "no batch"))
	err := cmp.Or(
		If(false, FieldTarget, "no target"),
		If(true, FieldVolume, "the tank cannot hold that; allowed: up to %v", 500*quantity.Gallon),
		If(true, FieldBed, "too large"),
	)
	require.EqualError(t, err, "volume: the tank cannot hold that; allowed: up to 500 gal")
	input, ok := err.(*InputError)
	require.True(t, ok)
	require.Equal(t, FieldVolume, input.Field)
	require.Equal(t, "the tank cannot hold that; allowed: up to 1 893 L", Sentence(input.Reason, input.Args, quantity.Metric))
}

func TestRelabel(t *testing.T) {
	require.EqualError(t, Relabel(Input(FieldStock, "too weak"), FieldWith), "with: too weak")
	require.NoError(t, Relabel(nil, FieldWith))
}
