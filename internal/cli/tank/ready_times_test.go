package tank

import (
	"testing"
	"time"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// The clocks of New York in 2026: an hour is left out on March 8 at 2:00, and one is shown twice on November 1 from 1:00
// on (IANA time zone database).
func newYork(t *testing.T) *time.Location {
	zone, err := time.LoadLocation("America/New_York")
	require.NoError(t, err)
	return zone
}

func TestTimes(t *testing.T) {
	for _, c := range []struct {
		name  string
		now   string
		typed []string
		hours []float64 // from the first on
		shown []string
		want  string // a refusal
	}{
		{"one day", "2026-01-13 05:00", []string{"3:00", "4:30"}, []float64{0, 1.5}, []string{"3:00", "4:30"}, ""},
		{"over midnight", "2026-01-13 05:00", []string{"23:00", "0:30"}, []float64{0, 1.5}, []string{"23:00", "0:30 next day"}, ""},
		{"yesterday's evening", "2026-01-13 05:00", []string{"20:00", "21:00"}, []float64{0, 1}, []string{"20:00", "21:00"}, ""},
		{"by dates", "2026-05-01 05:00", []string{"2026-01-12T22:00", "2026-01-14 01:00", "2:00"}, []float64{0, 27, 28}, nil, ""},
		{"minutes", "2026-11-01 05:00", []string{"0", "15"}, []float64{0, 0.25}, []string{"0 min", "15 min"}, ""},
		{"an hour more", "2026-11-01 05:00", []string{"0:30", "3:00"}, []float64{0, 3.5}, []string{"0:30", "3:00"}, ""},
		{"an hour less", "2026-03-08 05:00", []string{"1:30", "3:30"}, []float64{0, 1}, []string{"1:30", "3:30"}, ""},
		{"shown twice", "2026-11-01 05:00", []string{"0:30", "1:30"}, nil, nil, `"1:30": the clocks show that time twice on 2026-11-01`},
		{"shown twice, dated", "2026-12-01 05:00", []string{"2026-11-01T01:00"}, nil, nil, "show that time twice on 2026-11-01"},
		{"the night before that", "2026-11-01 00:40", []string{"22:00", "0:30"}, []float64{0, 2.5}, nil, ""},
		{"left out", "2026-03-08 05:00", []string{"1:30", "2:30"}, nil, nil, "there is no such time on 2026-03-08"},
		{"both kinds", "2026-03-08 05:00", []string{"1:30", "20"}, nil, nil, "times of day and minutes together"},
		{"a date behind none", "2026-03-09 05:00", []string{"1:30", "2026-03-09T2:30"}, nil, nil, "a date for the first, or for none"},
	} {
		t.Run(c.name, func(t *testing.T) {
			now, err := time.ParseInLocation("2006-01-02 15:04", c.now, newYork(t))
			require.NoError(t, err)
			var said []saidTime
			for _, text := range c.typed {
				at, err := readTime(text)
				require.NoError(t, err)
				said = append(said, at)
			}
			at, d, err := timesOf(said, now)
			if c.want != "" {
				require.Error(t, err)
				require.Regexp(t, c.want, err.Error())
				return
			}
			require.NoError(t, err)
			for i, hours := range c.hours {
				require.InDelta(t, hours, float64(at[i]-at[0])/3600, 1e-9)
			}
			for i, text := range c.shown {
				require.Equal(t, text, d.text(at[i]))
			}
		})
	}
	_, err := readTime("2026-01-12T20")
	require.ErrorContains(t, err, "no time of day")
	require.Equal(t, 90*quantity.Minute, mustTime(t, "1:30").at)
}

func mustTime(t *testing.T, text string) saidTime {
	said, err := readTime(text)
	require.NoError(t, err)
	return said
}
