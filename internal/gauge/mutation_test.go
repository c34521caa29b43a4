package gauge

import (
	"testing"

	"brineyard/internal/trial"

	"github.com/stretchr/testify/require"
)

// Each constant of the scales is watched: changed by one unit of its fourth digit, up
// or down, it makes the test fail that compares it with its source.
func TestEveryConstantCounts(t *testing.T) {
	t.Parallel()
	k := standard
	for _, c := range []struct {
		name  string
		at    *float64
		unit  float64
		check func(testing.TB, *constants)
	}{
		{"glass expansion", &k.expansion, 1e-8, glassGrowsWithWarmth},
		{"salometer full scale", &k.full, 1e-4, salometerAgainstItsTable},
		{"Baume modulus", &k.modulus, 0.1, scalesAgainstCRC},
	} {
		was := *c.at
		failure := func() error { return trial.Failure(t, func(t testing.TB) { c.check(t, &k) }) }
		require.NoError(t, failure(), c.name)
		for _, change := range []float64{c.unit, -c.unit} {
			*c.at = was + change
			require.Error(t, failure(), "%s changed by %g", c.name, change)
		}
		*c.at = was
	}
	require.Equal(t, 25e-6, GlassExpansion)
}
