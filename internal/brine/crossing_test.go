package brine

import (
	"math"
	"testing"

	"brineyard/internal/fault"

	"github.com/stretchr/testify/require"
)

// A curve that dips below zero between two steps of 1/40 is looked into: (x - 0.5125)^2
// less 0.005^2 is zero at 0.5075 first. The same from below, and those that never get
// there, one by little.
func TestFirstCrossing(t *testing.T) {
	dip := func(x float64) float64 { return (x-0.5125)*(x-0.5125) - 25e-6 }
	for name, c := range map[string]struct {
		off  func(float64) float64
		want float64 // below 0 for none
	}{
		"dip":    {dip, 0.5075},
		"hump":   {func(x float64) float64 { return -dip(x) }, 0.5075},
		"line":   {func(x float64) float64 { return 0.31 - x }, 0.31},
		"rising": {func(x float64) float64 { return x - 0.31 }, 0.31},
		"there":  {func(x float64) float64 { return x }, 0},
		"end":    {func(x float64) float64 { return 0.999 - x }, 0.999},
		"never":  {func(x float64) float64 { return 1 + x }, -1},
		"nearly": {func(x float64) float64 { return dip(x) + 26e-6 }, -1},
	} {
		x, err := firstCrossing(func(x float64) (float64, error) { return c.off(x), nil })
		require.NoError(t, err, name)
		require.Equal(t, c.want < 0, math.IsNaN(x), name)
		if c.want >= 0 {
			require.InDelta(t, c.want, x, 1e-10, name)
		}
	}
}

// An error on the way, at a step, in a hollow or in the last narrowing, is handed on.
func TestFirstCrossingFails(t *testing.T) {
	failed := fault.Input(fault.FieldParts, "not there")
	for name, c := range map[string]struct {
		off       func(float64) float64
		low, high float64 // where it fails
	}{
		"at once":   {func(x float64) float64 { return 1 - 2*x }, 0, 0},
		"at a step": {func(x float64) float64 { return 1 - 2*x }, 0.2, 0.3},
		"narrowing": {func(x float64) float64 { return 1.01 - 2*x }, 0.5001, 0.5249},
		"hollow":    {func(x float64) float64 { return 1e-4 + (x-0.5125)*(x-0.5125) }, 0.5001, 0.5249},
	} {
		_, err := firstCrossing(func(x float64) (float64, error) {
			if x >= c.low && x <= c.high {
				return c.off(x), failed
			}
			return c.off(x), nil
		})
		require.Equal(t, failed, err, name)
	}
}
