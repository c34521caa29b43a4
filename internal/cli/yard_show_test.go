package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A second mixing tank on the same pump and supply adds what it can, and one that would only
// keep the first waiting takes nothing away. Either way the working ends at what the yard
// makes: 1,000 gal in 86.19 min alone; a tank that mixes for 20 min gives, with it,
// (1,000/86.19 + 1,000/66.19) / ((50/86.19 + 30/66.19) of a minute a minute) by hand.
func TestYardShowOfTwoTanks(t *testing.T) {
	text, err := os.ReadFile(smallYard)
	require.NoError(t, err)
	alone := figureOf(t, "yard show --yard "+smallYard, "brine_per_hour")
	require.InEpsilon(t, 60*1000/86.19, alone, 1e-4)
	for mixing, c := range map[string]struct {
		want  float64
		label string
	}{
		"600min": {alone, "Brine an hour, mixer alone"},
		"20min":  {60 * (1000/86.19 + 1000/66.19) / (50/86.19 + 30/66.19), "Brine an hour, all mixing tanks"},
	} {
		yard := filepath.Join(t.TempDir(), "yard.toml")
		second := fmt.Sprintf("\n[[mixing_tank]]\nname = \"second\"\ncapacity = \"1200gal\"\nworking_volume = \"1100gal\"\npump_off = \"1000gal\"\nmix_time = %q\n", mixing)
		require.NoError(t, os.WriteFile(yard, append(text[:len(text):len(text)], second...), 0o600))
		line := "yard show --yard " + yard
		made := figureOf(t, line, "brine_per_hour")
		require.InEpsilon(t, c.want, made, 2e-4, mixing)
		require.GreaterOrEqual(t, made, alone*(1-1e-9), mixing)
		require.Contains(t, answer(t, demoFields(line)...), c.label)
		steps := workingOf(t, line)
		require.InEpsilon(t, made, leading(t, steps[len(steps)-1].Result), 5e-5, mixing)
	}
}
