package state

import (
	"testing"

	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

// What stands in the yard comes with the entry that said it last, and with a reading that
// contradicts the entries until a count settles that.
func TestOverSaysWho(t *testing.T) {
	y := statetest.Yard()
	rows := []string{"count tank=north volume=500gal nacl=23.3%", "reading tank=north nacl=22%", "note"}
	north, _ := replay(rows...).Over(y).Tank("north")
	require.True(t, north.Said.ByJournal())
	require.Equal(t, 2, north.Said.Entry)
	require.Equal(t, 2, north.Said.Doubt.Entry)
	require.InDelta(t, 0.22, float64(north.Said.Doubt.Read), 1e-12)
	require.InDelta(t, 0.233, float64(north.Said.Doubt.Expected), 1e-12)
	north, _ = replay(append(rows, "count tank=north volume=480gal")...).Over(y).Tank("north")
	require.Nil(t, north.Said.Doubt)
	south, _ := replay(rows...).Over(y).Tank("south")
	require.False(t, south.Said.ByJournal())
	require.Nil(t, y.Tanks[1].Contents) // the yard itself is left alone
}

// More out of a tank than stands in it, and more into it than it takes, cannot be.
func TestCannot(t *testing.T) {
	for row, cannot := range map[string]bool{
		"load from=north volume=501gal":                   true,
		"load from=north volume=500.4gal":                 false, // a mark
		"transfer from=north tank=mixer volume=600gal":    true,
		"delivery tank=south volume=2710gal liquid=cal31": true,
		"count tank=north volume=400gal":                  false,
		"load from=north":                                 false,
	} {
		cannots := false
		for _, p := range replay("count tank=north volume=500gal nacl=23.3%", row).Problems {
			cannots = cannots || p.Cannot
		}
		require.Equal(t, cannot, cannots, row)
	}
	require.True(t, replay("load from=north").Problems[0].LeftOut)
}
