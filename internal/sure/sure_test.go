package sure

import (
	"math"
	"math/rand/v2"
	"testing"

	"brineyard/internal/root"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestHalfOfOneAndTwo(t *testing.T) {
	require.InDelta(t, 0.95*0.25, Half(0.25), 1e-15)
	// Two equal spreads make a triangle, whose tail beyond x is (2h - x)^2 / (8 h^2).
	require.InDelta(t, 0.5*(1-math.Sqrt(0.05)), Half(0.25, 0.25), 1e-12)
	// Unequal ones make a trapezoid; its slope ends at a + b.
	require.InDelta(t, 0.5+0.4-math.Sqrt(0.2*0.5*0.4), Half(0.5, 0.4), 1e-12)
	require.Zero(t, Half())
	require.Zero(t, Half(0, 0))
	require.InDelta(t, 0.95, Half(1, 1e-9), 1e-6, "what is nothing beside the rest is left out")
}

// The range holds a sum of even spreads 95 times in 100, by trial.
func TestHalfByTrial(t *testing.T) {
	const tries = 200_000
	random := rand.New(rand.NewPCG(1, 2))
	for _, h := range [][]float64{{1}, {1, 0.1}, {1, 1}, {1, 0.5, 0.2}, {1, 1, 1}, {0.25, 0.03, 0.1, 0.2}} {
		half, held := Half(h...), 0
		for range tries {
			sum := 0.0
			for _, x := range h {
				sum += x * (2*random.Float64() - 1)
			}
			if math.Abs(sum) <= half {
				held++
			}
		}
		require.InDelta(t, 0.95, float64(held)/tries, 0.002, "%v", h)
	}
}

// A part more never narrows the range, nor does the order matter, and it scales.
func TestHalfProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SliceOfN(rapid.Float64Range(0, 2), 1, 5).Draw(t, "h")
		half := Half(h...)
		sum, square := 0.0, 0.0
		for _, x := range h {
			sum += x
			square += x * x
		}
		require.LessOrEqual(t, half, sum+1e-12)
		require.GreaterOrEqual(t, half, 0.95*slicesMax(h)-1e-6*sum)
		require.InDelta(t, 3*half, Half(times(h, 3)...), 1e-6*sum+1e-12)
	})
}

func slicesMax(h []float64) (most float64) {
	for _, x := range h {
		most = max(most, x)
	}
	return most
}

func times(h []float64, k float64) (out []float64) {
	for _, x := range h {
		out = append(out, k*x)
	}
	return out
}

func TestBudget(t *testing.T) {
	b := Budget{}.And(Part{"mark", 0.25}, Part{"nothing", 0})
	require.Len(t, b.Parts, 1)
	require.InDelta(t, 0.2375, b.Half(), 1e-12)
	require.InDelta(t, 0.475, b.Times(-2).Half(), 1e-12)
	require.InDelta(t, 0.25/math.Sqrt(3), b.Deviation(), 1e-12)
	b.Mixing = 0.1
	require.InDelta(t, math.Hypot(0.2375, 0.1), b.Half(), 1e-12)
	require.True(t, Budget{}.Exact())
	require.InDelta(t, 0.25, b.Of("mark"), 1e-15)
	require.Zero(t, b.Of("thermometer"))
	require.InDelta(t, math.Inf(1), Samples{Values: []float64{0.23}}.Allowed(), 0, "one sample lies apart from none")
}

// The tables are those of the distributions that they are named for.
func TestTables(t *testing.T) {
	normal := func(x float64) float64 { return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) }
	below := func(x float64) float64 { return 0.5 * math.Erfc(-x/math.Sqrt2) }
	for n := 2; n <= MostSamples; n++ {
		// The range of n: one is the lowest, at x, and the others lie within r above it.
		held := 0.0
		for from := -9.0; from < 9; from++ {
			held += root.Integral(func(x float64) float64 {
				return float64(n) * normal(x) * math.Pow(below(x+ranges[n])-below(x), float64(n-1))
			}, from, from+1)
		}
		require.InDelta(t, 0.99, held, 2e-5, "range of %d", n)

		f := float64(n - 1)
		gamma := func(x float64) float64 { g, _ := math.Lgamma(x); return g }
		scale := math.Exp(gamma((f+1)/2)-gamma(f/2)) / math.Sqrt(f*math.Pi)
		inside := 2 * root.Integral(func(a float64) float64 { // x = tan a takes the tail in
			x := math.Tan(a)
			return scale * math.Pow(1+x*x/f, -(f+1)/2) * (1 + x*x)
		}, 0, math.Atan(students[n]))
		require.InDelta(t, 0.95, inside, 5e-5, "t for %d", n)
	}
}

func TestSamples(t *testing.T) {
	same := Samples{Values: []float64{0.23, 0.23, 0.23}, Half: 0.0025}
	require.Zero(t, same.Mixing(), "a mark that all show leaves nothing to mixing")
	require.Zero(t, Samples{Values: []float64{0.23}, Half: 0.0025}.Mixing())

	apart := Samples{Values: []float64{0.231, 0.242}, Half: 0.0025}
	require.InDelta(t, 0.011, apart.Apart(), 1e-12)
	require.Less(t, apart.Allowed(), apart.Apart(), "23.1 and 24.2 by a half-percent glass are two tanks, or a slip")

	near := Samples{Values: []float64{0.23, 0.235, 0.2325}, Half: 0.0025}
	require.Greater(t, near.Allowed(), near.Apart())
	fine := Samples{Values: []float64{0.2301, 0.2311, 0.2321}, Half: 0.00005}
	require.InDelta(t, 4.303*0.001/math.Sqrt(3), fine.Mixing(), 1e-5)
}
