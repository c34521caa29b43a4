package fault

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// The first rule that is broken is the one reported, with its quantities in their units.
func TestFirst(t *testing.T) {
	require.NoError(t, First())
	require.NoError(t, First(When(false, FieldVolume, "no batch")))
	err := First(
		When(false, FieldTarget, "no target"),
		When(true, FieldVolume, "the tank cannot hold that; allowed: up to %v", 500*quantity.Gallon),
		When(true, FieldBed, "too large"),
	)
	require.EqualError(t, err, "volume: the tank cannot hold that; allowed: up to 500 gal")
	input, ok := err.(*InputError)
	require.True(t, ok)
	require.Equal(t, FieldVolume, input.Field)
	require.Equal(t, "the tank cannot hold that; allowed: up to 1,893 L", Sentence(input.Reason, input.Args, quantity.Metric))
}

func TestRelabel(t *testing.T) {
	require.EqualError(t, Relabel(Input(FieldStock, "too weak"), FieldWith), "with: too weak")
	require.NoError(t, Relabel(nil, FieldWith))
}
