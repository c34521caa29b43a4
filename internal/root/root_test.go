package root

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Functions with a root that is known exactly: steep, flat, kinked, and far to one
// side of the bracket.
func TestBetween(t *testing.T) {
	for name, c := range map[string]struct {
		f          func(float64) float64
		a, b, want float64
	}{
		"line":          {func(x float64) float64 { return 3 - x }, 0, 10, 3},
		"exponential":   {func(x float64) float64 { return math.Exp(x) - 1000 }, -5, 50, math.Log(1000)},
		"triple":        {func(x float64) float64 { return (x - 2) * (x - 2) * (x - 2) }, 0, 7, 2},
		"kink":          {func(x float64) float64 { return math.Max(x-1, 50*(x-1)) }, -4, 9, 1},
		"near one end":  {func(x float64) float64 { return x - 1e-9 }, 0, 1000, 1e-9},
		"backward":      {func(x float64) float64 { return x - 4 }, 9, 1, 4},
		"root at start": {func(x float64) float64 { return x }, 0, 1, 0},
		"root at end":   {func(x float64) float64 { return x - 1 }, 0, 1, 1},
		"from infinity": {math.Log, 0, 5, 1},
	} {
		got, ok := Between(c.f, c.a, c.b, c.f(c.a), c.f(c.b), 1e-12)
		require.True(t, ok, name)
		// A triple root is flat: its place is known to the cube root of rounding.
		tolerance := 1e-11
		if name == "triple" {
			tolerance = 1e-5
		}
		require.InDelta(t, c.want, got, tolerance, name)
	}
}

// The answer lies in the bracket and is as close as asked, in few evaluations: a
// bisection to 1e-12 of these brackets takes over 40.
func TestBetweenConverges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-5, 5).Draw(t, "root")
		bend := rapid.Float64Range(0.1, 3).Draw(t, "bend")
		calls := 0
		f := func(x float64) float64 { calls++; return math.Sinh(bend * (x - at)) }
		got, ok := Between(f, -6, 6, f(-6), f(6), 1e-12)
		require.True(t, ok)
		require.InDelta(t, at, got, 1e-11)
		require.Less(t, calls, 40)
	})
}

// Ends of one sign bracket no crossing, however small they are. A function that is not a
// number somewhere has no crossing that can be told.
func TestBetweenWithoutCrossing(t *testing.T) {
	hole := func(x float64) float64 {
		if x > 0.4 && x < 0.6 {
			return math.NaN()
		}
		return x - 0.5
	}
	for name, c := range map[string]struct {
		f    func(float64) float64
		a, b float64
	}{
		"above":            {func(x float64) float64 { return 1 + x*x }, -1, 3},
		"below":            {func(x float64) float64 { return -1 - x*x }, -1, 3},
		"product too tiny": {func(x float64) float64 { return 1e-200 * (1 + x*x) }, -1, 3},
		"not a number":     {math.Sqrt, -1, 3},
		"nor at the end":   {math.Sqrt, 3, -1},
		"a hole":           {hole, 0, 1},
	} {
		_, ok := Between(c.f, c.a, c.b, c.f(c.a), c.f(c.b), 1e-9)
		require.False(t, ok, name)
	}
}

// A crossing at an end is found there, whichever sign the other end has.
func TestBetweenAtAnEnd(t *testing.T) {
	for _, slope := range []float64{1, -1} {
		f := func(x float64) float64 { return slope * (x - 2) }
		for _, ends := range [][2]float64{{2, 5}, {-1, 2}} {
			x, ok := Between(f, ends[0], ends[1], f(ends[0]), f(ends[1]), 1e-12)
			require.True(t, ok)
			require.InDelta(t, 2, x, 1e-12)
		}
	}
}
