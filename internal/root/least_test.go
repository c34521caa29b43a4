package root

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The minimum is found as exactly as promised, also at the ends, with one evaluation a
// step.
func TestLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-7, 7).Draw(t, "hollow")
		steps := rapid.IntRange(1, 40).Draw(t, "steps")
		calls := 0
		f := func(x float64) float64 { calls++; return math.Abs(x - at) }
		got := Least(f, -6, 6, steps)
		inside := math.Max(-6, math.Min(6, at))
		require.InDelta(t, inside, got, 12*math.Pow(0.6180339887498949, float64(steps))+1e-12)
		require.Equal(t, steps+2, calls)
	})
}
