package tank

import (
	"testing"

	"brineyard/internal/cli/bind"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// FuzzTimed: any text is a reading with its time that makes sense, or is refused in one line.
func FuzzTimed(f *testing.F) {
	for _, text := range []string{"10:05=12%", "20=18.5%@45F", "0=1@", "24:00=1", "=", "10:05=", "1=1=1", "NaN=3", "5\x00=3%@4F", "\u202e=\xff@"} {
		f.Add(text)
	}
	q := &readyAt{instrument: gauge.PercentGlass()}
	q.Bind(bind.New(pflag.NewFlagSet("", pflag.ContinueOnError)))
	f.Fuzz(func(t *testing.T, text string) {
		sample, _, _, err := q.timed(text, quantity.US)
		if err == nil {
			require.GreaterOrEqual(t, float64(sample.At), 0.0)
			return
		}
		for _, r := range err.Error() {
			require.True(t, r >= ' ', "%q", err)
		}
	})
}
