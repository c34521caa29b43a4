package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// exactGlass is one whose marks and thermometer leave nothing open.
const exactGlass = "--glass-division 0.000001% --thermometer-division 0.0001F"

// A tank may be pumped or it may not, whoever is asked: check, its gate, ready of a tank that does not
// gain, and the season's count of batches give one decision of each reading, at both ends of
// the band, with a glass that leaves nothing open and with the usual one. A glass at its own 60 F shows the
// true strength.
func TestOnePumpDecision(t *testing.T) {
	const stop = "stop pumping it over the bed"
	for _, c := range []struct{ shown, glass, decision, ready string }{
		{"22.9994%", exactGlass, "too weak", "It does not gain"},
		{"22.9996%", exactGlass, "pump", "It stands at 23%"},
		{"24.0004%", exactGlass, "pump", "It stands at 24%"},
		{"24.0006%", exactGlass, "too strong", stop},
		{"22.7%", "", "too weak", "It does not gain"},
		{"22.9987%", "", "on the edge", "on the edge"},
		{"23%", "", "pump", "It stands at 23.0%"},
		{"24.2%", "", "on the edge", stop},
		{"24.3%", "", "too strong", stop},
	} {
		flags := strings.Fields("check --volume 500gal --hydrometer " + c.shown + " --temp 60F " + c.glass)
		require.Contains(t, answer(t, append(flags, "--format", "csv")...), "\ndecision,"+c.decision+",", c.shown)
		status, _, _ := invoke(t, append(flags, "--gate")...)
		require.Equal(t, c.decision == "pump", status == 0, c.shown)

		temp := strings.Fields("--temp 60F " + c.glass)
		stands := oneLine(answer(t, append([]string{"ready", "0=" + c.shown, "20=" + c.shown, "40=" + c.shown}, temp...)...))
		require.Contains(t, stands, c.ready, c.shown)
		in, edge := seasonOf(t, c.shown, c.glass)
		require.Equal(t, c.decision == "pump", in == 1, c.shown)
		require.Equal(t, c.decision == "on the edge", edge == 1, c.shown)
	}
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

// seasonOf is what the season says of a batch of which a glass showed so much, in a yard that has that glass:
// how many are in the band, and how many on its edge.
func seasonOf(t *testing.T, shown, glass string) (in, edge float64) {
	t.Helper()
	dir := t.TempDir()
	yard, journal := filepath.Join(dir, "yard.toml"), filepath.Join(dir, "journal.csv")
	text := "[[mixing_tank]]\nname = \"mixer\"\ncapacity = \"1350gal\"\n"
	if glass != "" {
		text += "[[glass]]\nname = \"exact\"\nscale = \"hydrometer\"\ndivision = \"0.000001%\"\n[thermometer]\ndivision = \"0.0001F\"\n"
	}
	require.NoError(t, os.WriteFile(yard, []byte(text), 0o600))
	for i, line := range []string{"batch --volume 1000gal --strength 23.3%", "reading --temp 60F --hydrometer " + shown} {
		status, _, errs := invoke(t, strings.Fields(fmt.Sprintf("journal add %s --tank mixer --at 2026-01-15T0%d:00 --journal %s --yard %s", line, 8+i, journal, yard))...)
		require.Zero(t, status, errs)
	}
	season := "journal season --journal " + journal + " --yard " + yard
	return figureOf(t, season, "batches_in_band"), figureOf(t, season, "batches_on_edge")
}
