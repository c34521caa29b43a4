package bind

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A time of day alone is the latest one that was; a clock that runs a little behind another
// still means today. The changes of clocks are those of the zone's published rules: New York
// skipped 02:30 on 8 March 2026.
func TestTimesOfDay(t *testing.T) {
	newYork, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	for _, c := range []struct{ now, typed, want string }{
		{"2026-01-14 06:10", "05:40", "2026-01-14 05:40"},
		{"2026-01-14 00:30", "23:50", "2026-01-13 23:50"},
		{"2026-01-14 06:10", "06:14", "2026-01-14 06:14"},
		{"2026-01-14 06:10", "06:16", "2026-01-13 06:16"},
		{"2026-01-01 00:10", "23:50", "2025-12-31 23:50"},
		{"2026-03-01 00:10", "23:50", "2026-02-28 23:50"},
		{"2026-03-09 01:00", "03:30", "2026-03-08 03:30"},
		{"2026-01-14 06:10", "2026-01-12", "2026-01-12 00:00"},
		{"2026-01-14 06:10", "2026-01-12 17:05", "2026-01-12 17:05"},
		{"2026-01-14 06:10", "2026-01-12T17:05", "2026-01-12 17:05"},
	} {
		now, err := time.ParseInLocation(minuteLayout, c.now, newYork)
		require.NoError(t, err)
		at, err := At(&Scope{Now: func() time.Time { return now }}, "at", c.typed)
		require.NoError(t, err)
		require.Equal(t, c.want, at.Format(minuteLayout), "%s at %s", c.typed, c.now)
	}
	for _, c := range []struct{ now, typed, says string }{
		{"2026-03-08 04:00", "02:30", "go forward"},
		{"2026-03-08 04:00", "2026-03-08 02:30", "go forward"},
		{"2026-01-14 06:10", "25:10", "not a time"},
		{"2026-01-14 06:10", "soon", "not a time"},
		{"2026-01-14 06:10", "2026-02-30", "not a time"},
	} {
		now, err := time.ParseInLocation(minuteLayout, c.now, newYork)
		require.NoError(t, err)
		_, err = At(&Scope{Now: func() time.Time { return now }}, "at", c.typed)
		require.ErrorContains(t, err, c.says)
		require.ErrorContains(t, err, "--at")
	}
}
