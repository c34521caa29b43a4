package drill

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// A problem fills only tanks that may hold the liquid: fresh water goes into a mixing tank alone, and
// nothing goes from a tank into one that holds something else.
func TestMovesIntoTanksThatMayHoldIt(t *testing.T) {
	s := DefaultShop()
	for i := range s.Tanks {
		if s.Tanks[i].Name == "west" {
			s.Tanks[i].LiquidName, s.Tanks[i].Liquid = "calcium", &balance.Liquid{Composition: solution.Composition{CaCl2: 0.31}}
		}
	}
	west, east := 0, 0
	for _, m := range s.moves() {
		into, known := s.tank(m.To)
		if m.From == yard.FreshWater && known {
			require.True(t, into.Mixing, "%s to %s", m.From, m.To)
		}
		require.False(t, known && m.From != yard.FreshWater && (m.To == "west") != (m.From == "west"), "%s to %s", m.From, m.To)
		switch {
		case m.From == "west" && !known:
			west++
		case m.From == "mixer" && m.To == "east":
			east++
		}
	}
	require.Positive(t, west, "its own truck fill")
	require.Positive(t, east)
	for _, tank := range s.tanks() {
		require.NotEqual(t, "west", tank.Name)
	}
	for _, tank := range s.salted() {
		require.True(t, tank.Mixing)
	}
}
