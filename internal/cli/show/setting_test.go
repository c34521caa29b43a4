package show

import (
	"strings"
	"testing"

	"brineyard/internal/lineup"

	"github.com/stretchr/testify/require"
)

// Each fault has words of its own, in the verdict when it is the first and in a note when
// it is not.
func TestEveryFaultHasWords(t *testing.T) {
	seen := map[string]bool{}
	for _, fault := range []lineup.Fault{
		lineup.DryRun, lineup.DrawsAir, lineup.TwoSources, lineup.DeadHead, lineup.Ring, lineup.Backflow, lineup.TanksJoined, lineup.AlsoRuns, lineup.TwoOutlets, lineup.FillOpen, lineup.SupplyShort,
	} {
		verdict, notes := SettingWords(lineup.Setting{Findings: []lineup.Finding{{Fault: fault}, {Fault: fault}}})
		first, found := strings.CutPrefix(verdict, "Do not pump: ")
		require.True(t, found, verdict)
		require.Len(t, notes, 1)
		require.Equal(t, strings.ToUpper(first[:1])+first[1:], notes[0])
		require.False(t, seen[verdict], "%s", fault)
		seen[verdict] = true
	}
}

func TestGoodSetting(t *testing.T) {
	good := lineup.Setting{Sources: []string{"mixer"}, Outlets: []string{"north"}}
	verdict, notes := SettingWords(good)
	require.Equal(t, "Good to pump: mixer to north.", verdict)
	require.Empty(t, notes)
}
