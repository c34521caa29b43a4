package solution

import (
	"math"
	"sync"
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
func TestPitzerJAgainstItsIntegral(t *testing.T) { pitzerJAgainstItsIntegral(t, &standard) }

func pitzerJAgainstItsIntegral(t testing.TB, k *coefficients) {
	for _, want := range integrals() {
		j, slope := k.pitzerJ(want.x)
		require.InDelta(t, want.j, j, 2e-8*math.Max(1, want.x), "x = %g", want.x)
		require.InDelta(t, want.slope, slope, 1e-6, "slope at x = %g", want.x)
	}
}

// integral holds J and its slope by the definition.
type integral struct{ x, j, slope float64 }

// integrals are calculated once.
var integrals = sync.OnceValue(func() []integral {
	var all []integral
	for x := 0.02; x < 120; x *= 1.07 {
		h := 1e-4 * x
		all = append(all, integral{x, integralJ(x), (integralJ(x+h) - integralJ(x-h)) / (2 * h)})
	}
	return all
})

// Harvie's two expansions meet at x = 1 to the 15 decimals of their coefficients, and J
// begins at 0 within their error of 1e-9. At x = 1 every coefficient has its full
// weight, so this test sees those that are too small for the integral. The first
// coefficient has half a weight: in halves of the last decimal the two sums differ by
// one.
func TestPitzerJExpansionsMeet(t *testing.T) { pitzerJExpansionsMeet(t, &standard) }

func pitzerJExpansionsMeet(t testing.TB, k *coefficients) {
	halves := func(series *[21]float64) (sum int64) {
		for i, a := range series {
			n := int64(math.Round(1e15 * a))
			if i > 0 {
				n *= 2
			}
			sum += n
		}
		return sum
	}
	require.EqualValues(t, 1, halves(&k.jSmall)-halves(&k.jLarge))
	at, slopeAt := k.pitzerJ(1)
	above, slopeAbove := k.pitzerJ(math.Nextafter(1, 2))
	require.InDelta(t, at, above, 1e-14)
	require.InDelta(t, slopeAt, slopeAbove, 1e-12)
	zero, _ := k.pitzerJ(1e-60)
	require.InDelta(t, 0, zero, 1e-9)
}
