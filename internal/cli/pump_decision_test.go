package cli

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A tank may be pumped or it may not, whoever is asked: check, ready of a tank that does not
// gain, and the season's count of batches give one decision of each reading, at both ends of
// the band. A glass at its own 60 F shows the true strength.
func TestOnePumpDecision(t *testing.T) {
	const stop = "stop pumping it over the bed"
	for shown, want := range map[string]struct {
		decision, ready string
		in              float64
	}{
		"22.9994%": {"too weak", "It does not gain", 0},
		"22.9996%": {"pump", "It stands at 23%", 1},
		"24.0004%": {"pump", "It stands at 24%", 1},
		"24.0006%": {"too strong", stop, 0},
	} {
		checked := answer(t, "check", "--volume", "500gal", "--hydrometer", shown, "--temp", "60F", "--format", "csv")
		require.Contains(t, checked, "\ndecision,"+want.decision+",", shown)
		stands := answer(t, "ready", "0="+shown, "20="+shown, "40="+shown, "--temp", "60F")
		require.Contains(t, stands, want.ready, shown)
		rises := answer(t, "ready", "0=20%", "20=22.5%", "40="+shown, "--temp", "60F")
		require.Equal(t, want.decision == "too strong", strings.Contains(strings.Join(strings.Fields(rises), " "), stop), "%s: %s", shown, rises)
		require.InDelta(t, want.in, batchesInBand(t, shown), 0, shown)
	}
}

// batchesInBand is what the season says of a batch of which a glass showed so much.
func batchesInBand(t *testing.T, shown string) float64 {
	path := filepath.Join(t.TempDir(), "journal.csv")
	for i, line := range []string{"batch --volume 1000gal --strength 23.3%", "reading --temp 60F --hydrometer " + shown} {
		status, _, errs := invoke(t, demoFields(fmt.Sprintf("journal add %s --tank mixer --at 2026-01-15T0%d:00 --journal %s", line, 8+i, path))...)
		require.Zero(t, status, errs)
	}
	return figureOf(t, "journal season --journal "+path, "batches_in_band")
}
