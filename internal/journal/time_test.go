package journal

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A period is by the clock of the place: at 23:30 on the last day of January in a zone west
// of Greenwich it is February there.
func TestPeriod(t *testing.T) {
	january := Period{From: at("2026-01-01T00:00:00Z"), To: at("2026-02-01T00:00:00Z")}
	for text, want := range map[string][2]bool{ // in it, and after its end
		"2025-12-31T23:59:59-05:00": {false, false},
		"2026-01-01T00:00:00-05:00": {true, false},
		"2026-01-31T23:30:00-05:00": {true, false},
		"2026-02-01T00:00:00-05:00": {false, true},
		"2026-01-01T00:00:00+09:00": {true, false},
	} {
		require.Equal(t, want, [2]bool{january.Has(at(text)), january.EndsBefore(at(text))}, text)
		require.True(t, Period{}.Has(at(text)))
		require.False(t, Period{}.EndsBefore(at(text)))
	}
}

// Entries of one time keep the order of the file.
func TestByTime(t *testing.T) {
	entries := []Entry{note("1"), note("2"), note("3"), note("0")}
	entries[3].Time = entries[0].Time.Add(-time.Minute)
	var notes []string
	for _, e := range ByTime(Effective(entries)) {
		notes = append(notes, e.Note)
	}
	require.Equal(t, []string{"0", "1", "2", "3"}, notes)
	require.True(t, slices.Equal(ByTime(Effective(entries[:2])), []*Entry{&entries[0], &entries[1]}))
}
