package solution

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// productOf is a chloride as if nothing but a data sheet were known of it: its own ice points, to -40 C.
func productOf(t *testing.T, s Salt) *Product {
	t.Helper()
	p := &Product{Solute: 0.25, Density: 1200}
	for celsius := -2.0; celsius >= -40; celsius -= 2 {
		m := standard.molality(Pure(s, 0.1))
		scale := standard.chlorideScale(&m, zeroCelsius+celsius)
		if math.IsInf(scale, 1) {
			break
		}
		ratio := scale * 0.1 / 0.9
		p.Freezing = append(p.Freezing, FreezingPoint{Solute: ratio / (1 + ratio), Temperature: zeroCelsius + celsius})
	}
	return p
}

// The rule, for a product of which a sheet alone is known, against the model, which knows what the salts do to each
// other: calcium or magnesium chloride as the product, in salt brine, down to -30 C. It is off by less than a
// fiftieth of the lowering. (Source of the model: Toner and Catling 2017.)
func TestEstimateAgainstTheModel(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	worst := 0.0
	for _, s := range []Salt{CaCl2, MgCl2, KCl} {
		p := productOf(t, s)
		for range 400 {
			salt, other := 0.2*random.Float64(), 0.2*random.Float64()
			whole := Pure(s, other)
			whole.NaCl = salt
			f, err := Anchored().Freezing(whole)
			require.NoError(t, err)
			ice := f.Ice.Temperature - zeroCelsius
			if !f.Ice.Found || ice < -30 || s == KCl && ice < -10 {
				continue
			}
			estimate, err := EstimateIcePoint(Composition{NaCl: salt, Other: other}, []ProductShare{{Product: p, Solute: other}})
			require.NoError(t, err)
			if !estimate.Found {
				continue
			}
			off := (estimate.Temperature - zeroCelsius - ice) / ice
			worst = max(worst, math.Abs(off))
		}
		t.Logf("%v: off by up to %.3f of the lowering", s, worst)
	}
	require.Less(t, worst, 0.02)
	require.Less(t, worst, estimateError)
	low, high := EstimateBound(zeroCelsius - 20)
	require.InDelta(t, -21.5, low-zeroCelsius, 1e-9)
	require.InDelta(t, -18.5, high-zeroCelsius, 1e-9)
	_, high = EstimateBound(zeroCelsius)
	require.InDelta(t, 0, high-zeroCelsius, 1e-12)
}
