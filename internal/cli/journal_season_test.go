package cli

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is not known has the unit of the others: a mixer that nobody cleaned, in a yard
// without a rule, has no interval.
func TestUnknownIntervalHasItsUnit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.csv")
	status, _, errs := invoke(t, "journal", "add", "batch", "--journal", path, "--tank", "mixer", "--volume", "4kL", "--strength", "23.3%")
	require.Zero(t, status, errs)
	for units, want := range map[string][2]string{"us": {"gal", "lb"}, "metric": {"L", "kg"}} {
		var document struct {
			Tables map[string][]map[string]struct {
				Value any
				Unit  string
			}
		}
		text := answer(t, "journal", "season", "--journal", path, "--units", units, "--format", "json")
		require.NoError(t, json.Unmarshal([]byte(text), &document), text)
		row := document.Tables["cleaning"][0]
		for key, unit := range map[string]string{"made_since": want[0], "interval": want[0], "left": want[0], "usual_insolubles": want[1]} {
			require.Equal(t, unit, row[key].Unit, "%s, %s", units, key)
		}
		require.Nil(t, row["interval"].Value)
	}
}
