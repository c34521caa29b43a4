package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// integralJ evaluates the definition of J(x), Pitzer (1975) equation 46,
//
//	J(x) = x/4 - 1 + 1/x integral from 0 to infinity of (1 - exp(-(x/y) exp(-y))) y^2 dy
//
// with y = exp(s), by the trapezoidal rule, which converges exponentially here.
func integralJ(x float64) float64 {
	const step, low, high = 1.0 / 64, -20.0, 6.0
	sum := 0.0
	for s := low; s <= high; s += step {
		y := math.Exp(s)
		sum -= math.Expm1(-x/y*math.Exp(-y)) * y * y * y
	}
	return x/4 - 1 + sum*step/x
}

// Source: the defining integral; it also guards every printed coefficient.
func TestPitzerJAgainstItsIntegral(t *testing.T) {
	for x := 0.02; x < 120; x *= 1.07 {
		j, slope := pitzerJ(x)
		require.InDelta(t, integralJ(x), j, 2e-8*math.Max(1, x), "x = %g", x)
		h := 1e-4 * x
		require.InDelta(t, (integralJ(x+h)-integralJ(x-h))/(2*h), slope, 1e-6, "slope at x = %g", x)
	}
}
