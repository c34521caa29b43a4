package show

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

func moment(t *testing.T, text string) time.Time {
	t.Helper()
	at, err := time.Parse(time.RFC3339, text)
	require.NoError(t, err)
	return at
}

func TestWhen(t *testing.T) {
	for _, c := range []struct{ then, now, want string }{
		{"2026-01-14T06:10:00-05:00", "2026-01-14T06:40:00-05:00", "6:10 today"},
		{"2026-01-14T00:00:00-05:00", "2026-01-14T23:59:00-05:00", "0:00 today"},
		{"2026-01-13T22:40:00-05:00", "2026-01-14T05:00:00-05:00", "22:40 yesterday"},
		{"2026-01-14T03:10:00Z", "2026-01-14T06:40:00-05:00", "22:10 yesterday"}, // where the clock stands
		{"2026-01-11T22:40:00-05:00", "2026-01-14T05:00:00-05:00", "11 Jan, 3 days ago"},
		{"2025-12-31T22:40:00-05:00", "2026-01-02T05:00:00-05:00", "31 Dec 2025, 2 days ago"},
		{"2026-01-15T06:10:00-05:00", "2026-01-14T06:40:00-05:00", "15 Jan 6:10"}, // a clock that runs ahead
		{"2024-02-28T12:00:00Z", "2024-03-01T12:00:00Z", "28 Feb, 2 days ago"},    // 29 February between
	} {
		require.Equal(t, c.want, When(moment(t, c.then), moment(t, c.now)), c.then)
	}
}

func TestDoubt(t *testing.T) {
	now := moment(t, "2026-01-14T06:40:00-05:00")
	v := View{System: quantity.US}
	fresh := yard.Said{Entry: 7, Time: now.Add(-time.Hour)}
	require.Empty(t, v.Doubt("north", fresh, now))
	require.Equal(t, " (journal, 5:40 today)", v.Source(fresh, now))
	require.Empty(t, v.Doubt("north", yard.Said{}, now), "the file has no age")
	require.Equal(t, " (yard file)", v.Source(yard.Said{}, now))
	old := yard.Said{Entry: 7, Time: now.Add(-25 * time.Hour)}
	require.Equal(t, "The last entry about north is of 5:40 yesterday: look at the level before you act.", v.Doubt("north", old, now))
	fresh.Doubt = &yard.Doubt{Entry: 8, Read: 0.221, Expected: 0.233}
	require.Equal(t, "Entry 8 read 22.1% in north where the entries make it 23.3%: something was not recorded, so look at the level before you act.", v.Doubt("north", fresh, now))
	require.Equal(t, " (journal, 5:40 today, but a reading contradicts it)", v.Source(fresh, now))
	require.Empty(t, View{NumbersOnly: true}.Source(fresh, now))
}
