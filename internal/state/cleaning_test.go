package state

import (
	"testing"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

// due is when the mixer is to be cleaned after rows, by a rule of the yard.
func due(t *testing.T, every quantity.Volume, rows ...string) CleaningDue {
	t.Helper()
	last := statetest.Noon().Add(time.Duration(len(rows)-1) * time.Hour)
	return tankOf(t, replay(rows...), "mixer").CleaningDue(every, last)
}

// The interval is what was made between past cleanings; the yard's rule stands until
// there are two, and where it has none, one is better than nothing.
func TestCleaningInterval(t *testing.T) {
	const batch, empty, clean = "batch tank=mixer volume=1000gal nacl=23.3%", "load from=mixer volume=1000gal", "clean tank=mixer"
	const rule = 42000 * quantity.Gallon
	d := due(t, rule, batch, empty, batch, empty)
	require.Equal(t, rule, d.Interval)
	require.Zero(t, d.Learned)
	once := []string{batch, empty, clean, batch}
	d = due(t, rule, once...)
	require.Zero(t, d.Learned)
	require.Equal(t, rule, d.Interval)
	d = due(t, 0, once...)
	require.Equal(t, 1, d.Learned)
	require.InEpsilon(t, 1000, float64(d.Interval/quantity.Gallon), 1e-9)
	d = due(t, rule, clean, batch, empty, batch, empty, clean, batch, empty, batch, empty, batch, empty, batch, empty, clean, batch)
	require.Equal(t, 2, d.Learned) // the first, before any batch, tells nothing
	require.InEpsilon(t, 3000, float64(d.Interval/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 1000, float64(d.Since/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 2000, float64(d.Left/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 3*2417.8*0.984*0.038, float64(d.Sludge/quantity.Pound), 1e-4)
	// 7,000 gal in the 14 hours since the first batch, so 14 x 2/7 hours for the 2,000 that
	// are left.
	require.WithinDuration(t, statetest.Noon().Add((15+4)*time.Hour), d.Date, time.Second)
}

// Of many cleanings the last five tell the interval.
func TestCleaningIntervalForgets(t *testing.T) {
	var rows []string
	for _, made := range []string{"900", "100", "200", "300", "400", "500"} {
		rows = append(rows, "batch tank=mixer volume="+made+"gal nacl=23.3%", "clean tank=mixer")
	}
	d := due(t, 0, rows...)
	require.Equal(t, 5, d.Learned)
	require.InEpsilon(t, 300, float64(d.Interval/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 300, float64(d.Left/quantity.Gallon), 1e-9)
	// Past the interval nothing is left, and it is due at once.
	d = due(t, 0, append(rows, "batch tank=mixer volume=310gal nacl=23.3%")...)
	require.Zero(t, d.Left)
	require.Equal(t, statetest.Noon().Add(12*time.Hour), d.Date)
}

// Without a batch, or with no time since the first, there is no pace and so no date.
func TestCleaningWithoutPace(t *testing.T) {
	for _, rows := range [][]string{{"clean tank=mixer"}, {"note", "clean tank=mixer", "note"}, {"batch tank=mixer volume=1000gal nacl=23.3%"}} {
		d := due(t, 42000*quantity.Gallon, rows...)
		require.Equal(t, 42000*quantity.Gallon, d.Interval)
		require.Zero(t, d.Date, "%v", rows)
	}
	require.Zero(t, due(t, 0, "batch tank=mixer volume=1000gal nacl=23.3%", "note").Date) // no interval
}
