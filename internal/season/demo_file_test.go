package season

import (
	"os"
	"path/filepath"
	"testing"

	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/state"
	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

var demoJournal = filepath.Join("..", "..", "testdata", "season", "thistlewick.csv")

// The journal of the demo is what the generator makes. UPDATE_SEASON=1 writes it anew.
func TestDemoJournal(t *testing.T) {
	entries := newDemoSeason(11, 18)
	fresh := filepath.Join(t.TempDir(), "journal.csv")
	_, err := disk.Append(fresh, disk.Options{}, entries)
	require.NoError(t, err)
	want, err := os.ReadFile(fresh)
	require.NoError(t, err)
	if os.Getenv("UPDATE_SEASON") != "" {
		require.NoError(t, os.MkdirAll(filepath.Dir(demoJournal), 0o755))
		require.NoError(t, os.WriteFile(demoJournal, want, 0o644))
	}
	got, err := os.ReadFile(demoJournal)
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
	// What was written says the same as what was meant.
	j, err := disk.Read(demoJournal)
	require.NoError(t, err)
	require.Empty(t, j.Faults)
	meant := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
	read := SumUp(Request{Yard: statetest.Yard()}, journal.Effective(j.Entries))
	require.InEpsilon(t, float64(meant.Total.Laid), float64(read.Total.Laid), 1e-9)
	require.InEpsilon(t, float64(meant.Total.Chlorides), float64(read.Total.Chlorides), 1e-9)
	require.Equal(t, meant.Band, read.Band)
}

// To take back every entry leads to the opening state, and to take that back again to
// where it was.
func TestUndoOfEverything(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal.csv")
	entries := newDemoSeason(2, 2)
	_, err := disk.Append(path, disk.Options{}, entries)
	require.NoError(t, err)
	stand := func() (Report, *state.State) {
		j, err := disk.Read(path)
		require.NoError(t, err)
		require.Empty(t, j.Faults)
		return SumUp(Request{Yard: statetest.Yard()}, journal.Effective(j.Entries)), state.Replay(statetest.Yard(), journal.Effective(j.Entries))
	}
	before, _ := stand()
	for i := len(entries); i >= 1; i-- {
		_, err := disk.Reverse(path, disk.Options{}, i, journal.Entry{Time: entries[0].Time})
		require.NoError(t, err)
	}
	report, now := stand()
	require.Zero(t, report.Entries)
	require.Empty(t, now.Tanks())
	require.Zero(t, now.Pile)
	for i := len(entries) + 1; i <= 2*len(entries); i++ {
		_, err := disk.Reverse(path, disk.Options{}, i, journal.Entry{Time: entries[0].Time})
		require.NoError(t, err)
	}
	after, _ := stand()
	require.Equal(t, before.Total, after.Total)
	require.Equal(t, before.Closing, after.Closing)
}
