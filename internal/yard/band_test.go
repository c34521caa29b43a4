package yard

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

func TestDecisionInWords(t *testing.T) {
	for d, want := range map[Decision]string{MayPump: "pump", TooStrong: "too strong", TooWeak: "too weak"} {
		require.Equal(t, want, d.String())
	}
}

// Common practice, no source: the band is 23 to 24 %, 0.3 below the target and 0.7
// above. It stays where it holds the target, ends included, and else moves along with
// it, by hand: 25 % less 0.3 and plus 0.7; near fresh water it ends at 0.
func TestBandAround(t *testing.T) {
	for target, want := range map[quantity.Strength]Band{
		0.233: {Target: 0.233, Low: 0.23, High: 0.24},
		0.23:  {Target: 0.23, Low: 0.23, High: 0.24},
		0.24:  {Target: 0.24, Low: 0.23, High: 0.24},
		0.25:  {Target: 0.25, Low: 0.247, High: 0.257},
		0.2:   {Target: 0.2, Low: 0.197, High: 0.207},
		0.002: {Target: 0.002, Low: 0, High: 0.009},
	} {
		b := BandAround(target)
		require.Equal(t, want.Target, b.Target)
		require.InDelta(t, float64(want.Low), float64(b.Low), 1e-12, "%v", float64(target))
		require.InDelta(t, float64(want.High), float64(b.High), 1e-12, "%v", float64(target))
		require.NoError(t, b.Check())
	}
}

// The ends of the band belong to it, and so does a strength beyond them by no more than
// needs no correction.
func TestJudge(t *testing.T) {
	b := DefaultBand()
	for s, want := range map[quantity.Strength]Decision{
		0.2299: TooWeak, 0.229994: TooWeak, 0.229996: MayPump, 0.23: MayPump, 0.233: MayPump,
		0.24: MayPump, 0.240004: MayPump, 0.240006: TooStrong, 0.2401: TooStrong,
	} {
		require.Equal(t, want, b.Judge(s), "%v", float64(s))
	}
}

func TestContradicts(t *testing.T) {
	for _, c := range []struct {
		read, expected quantity.Strength
		want           bool
	}{
		{0.233, 0.233, false}, {0.235, 0.233, false}, {0.231, 0.233, false}, // two marks, whatever the rounding
		{0.2351, 0.233, true}, {0.2309, 0.233, true}, {0, 0.233, true},
	} {
		require.Equal(t, c.want, Contradicts(c.read, c.expected), c)
	}
}
