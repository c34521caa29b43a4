package root

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestIntegral(t *testing.T) {
	for name, c := range map[string]struct {
		f       func(float64) float64
		a, b, w float64
	}{
		"line":                    {func(x float64) float64 { return 2 * x }, 1, 3, 8},
		"nothing":                 {func(x float64) float64 { return 2 * x }, 3, 3, 0},
		"backwards":               {func(x float64) float64 { return 2 * x }, 3, 1, -8},
		"half a circle":           {func(x float64) float64 { return math.Sqrt(max(0, 1-x*x)) }, -1, 1, math.Pi / 2},
		"a root":                  {math.Sqrt, 0, 4, 16.0 / 3},
		"a bell (error function)": {func(x float64) float64 { return math.Exp(-x * x) }, 0, 2, math.Sqrt(math.Pi) / 2 * math.Erf(2)},
	} {
		require.InDelta(t, c.w, Integral(c.f, c.a, c.b), 1e-11, name)
	}
}
