package gauge

import (
	"testing"

	"brineyard/internal/trial"

	"github.com/stretchr/testify/require"
)

// Each constant of the scales is watched: changed by one unit of its fourth digit, up
// or down, it makes the test fail that compares it with its source.
func TestEveryConstantCounts(t *testing.T) {
	for _, c := range []struct {
		name  string
		at    *float64
		unit  float64
		check func(testing.TB)
	}{
		{"glass expansion", &trade.expansion, 1e-8, glassGrowsWithWarmth},
		{"salometer full scale", &trade.full, 1e-4, salometerAgainstItsTable},
		{"Baume modulus", &trade.modulus, 0.1, scalesAgainstCRC},
	} {
		was := *c.at
		require.NoError(t, trial.Failure(t, c.check), c.name)
		for _, change := range []float64{c.unit, -c.unit} {
			*c.at = was + change
			failure := trial.Failure(t, c.check)
			*c.at = was
			require.Error(t, failure, "%s changed by %g", c.name, change)
		}
		require.NoError(t, trial.Failure(t, c.check), c.name)
	}
	require.Equal(t, 25e-6, GlassExpansion)
	require.Equal(t, 0.26395, SalometerFull)
}
