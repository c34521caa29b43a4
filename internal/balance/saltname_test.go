package balance

import (
	"testing"

	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
)

// Each salt is found by its name, in any case of letters; brine means NaCl.
func TestSaltNamed(t *testing.T) {
	require.Len(t, Salts(), 4)
	for _, salt := range Salts() {
		found, ok := SaltNamed(SaltName(salt))
		require.True(t, ok)
		require.Equal(t, salt, found)
	}
	for name, want := range map[string]solution.Salt{"Brine": solution.NaCl, "CaCl2": solution.CaCl2} {
		found, ok := SaltNamed(name)
		require.True(t, ok, name)
		require.Equal(t, want, found, name)
	}
	for _, name := range []string{"", "water", "na cl", "cacl"} {
		_, ok := SaltNamed(name)
		require.False(t, ok, name)
	}
}

// A cold without ice or salt gives what stands in for it.
func TestColdOr(t *testing.T) {
	cold, err := SaltBrine(0.2).Cold()
	require.NoError(t, err)
	require.InDelta(t, float64(cold.Freezing.Ice.Temperature), cold.IceOr(1), 1e-12)
	water, err := Liquid{}.Cold()
	require.NoError(t, err)
	require.Equal(t, 1.0, water.SaltOr(1))
	require.Equal(t, 1.0, Cold{}.IceOr(1))
}
