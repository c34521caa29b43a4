package tank

import (
	"testing"
	"time"

	"brineyard/internal/cli/bind"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// FuzzReadTime: any text is a time that makes sense, or is refused in one line.
func FuzzReadTime(f *testing.F) {
	for _, text := range []string{"10:05", "20", "0530", "24:00", "", "2026-01-12T10:05", "2026-01-12 10:05", "2026-02-30T1:00", "NaN", "5\x00", "\u202e\xff"} {
		f.Add(text)
	}
	now := time.Date(2026, 1, 13, 5, 0, 0, 0, time.UTC)
	f.Fuzz(func(t *testing.T, text string) {
		said, err := readTime(text)
		if err == nil {
			var at []quantity.Duration
			at, _, err = timesOf([]saidTime{said}, now)
			if err == nil {
				require.GreaterOrEqual(t, float64(at[0]), 0.0)
				return
			}
		}
		requireOneLine(t, err)
	})
}

// FuzzSample: any text is a reading, or is refused in one line.
func FuzzSample(f *testing.F) {
	for _, text := range []string{"12%", "18.5%@45F", "1@", "", "1=1", "3%@4F", "\u202e=\xff@"} {
		f.Add(text)
	}
	q := &readyAt{instrument: gauge.PercentGlass()}
	b := bind.New(pflag.NewFlagSet("", pflag.ContinueOnError))
	q.Bind(b)
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := q.sample(b, &bind.Scope{System: quantity.US}, text, text); err != nil {
			requireOneLine(t, err)
		}
	})
}

func requireOneLine(t *testing.T, err error) {
	for _, r := range err.Error() {
		require.True(t, r >= ' ', "%q", err)
	}
}
