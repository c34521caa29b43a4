package season

import (
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

// Brine from outside is no salt off the pile.
func TestBoughtBrineInACorrection(t *testing.T) {
	report := sumUp(
		"count tank=north volume=1000gal nacl=22%",
		"correction tank=north volume=500gal nacl=26%",
	)
	require.Zero(t, report.Salt.InBrine)
	require.Zero(t, report.Salt.Unexplained)
}

// What came and went before the first count of the pile is part of the balance: where nothing was
// known of the pile, its opening is reckoned back from that count. 20,000 lb were found after 9,000
// came and a batch took 2,417.8.
func TestSaltBalanceBeginsAtACount(t *testing.T) {
	const batch, empty = "batch tank=mixer volume=1000gal nacl=23.3%", "load from=mixer volume=1000gal"
	rows := []string{"delivery salt=9000lb", batch, empty, "count tank=pile salt=20000lb", batch, empty, "delivery salt=700lb"}
	for _, end := range []string{"note", "count tank=pile salt=18282lb"} {
		b := sumUp(append(rows, end)...).Salt
		require.False(t, b.Counted) // a count does not stand before all that moved
		require.InEpsilon(t, 20000-9000+2417.8, float64(b.Opening/quantity.Pound), 1e-4)
		require.InEpsilon(t, 9700, float64(b.Delivered/quantity.Pound), 1e-9)
		require.InEpsilon(t, 2*2288.7, float64(b.InBrine/quantity.Pound), 1e-4)
		require.InEpsilon(t, 2*2417.8, float64(b.Gone/quantity.Pound), 1e-3)
	}
}

// A period without a count goes by what the entries before it left of the pile.
func TestSaltBalanceOfAPeriod(t *testing.T) {
	entries := statetest.Rows("count tank=pile salt=20000lb", "delivery salt=500lb", "batch tank=mixer volume=1000gal nacl=23.3%")
	third := journal.Period{From: statetest.Noon().Add(2 * time.Hour)}
	b := SumUp(Request{Yard: statetest.Yard(), Period: third}, inOrder(entries)).Salt
	require.False(t, b.Counted)
	require.InEpsilon(t, 20500, float64(b.Opening/quantity.Pound), 1e-9)
	require.Zero(t, b.Delivered)
	require.InEpsilon(t, 20500-2417.8, float64(b.Closing/quantity.Pound), 1e-4)
}

// What is not explained is worth a search from 5 % of the salt gone, above and below.
func TestSaltBalanceIsNotable(t *testing.T) {
	for unexplained, notable := range map[quantity.Mass]bool{-51: true, -49: false, 49: false, 51: true} {
		require.Equal(t, notable, SaltBalance{Gone: 1000, Unexplained: unexplained}.Notable(), "%v", unexplained)
	}
}
