package solution

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawCold draws a solution of any of the salts, some of them in traces, up to the
// strength that the model is checked to, and a temperature from 40 to -50 C.
func drawCold(t *rapid.T) (Composition, float64) {
	var w [saltCount]float64
	sum := 0.0
	for s := range w {
		if rapid.Bool().Draw(t, "has "+Salt(s).String()) {
			share := rapid.Float64Range(1e-4, 1).Draw(t, Salt(s).String())
			w[s] = share * share * share
			sum += w[s]
		}
	}
	total := rapid.Float64Range(0.001, CheckedTo).Draw(t, "total")
	if sum > 0 {
		for s := range w {
			w[s] *= total / sum
		}
	}
	return fromSalts(w, 0), zeroCelsius + rapid.Float64Range(-50, 40).Draw(t, "C")
}

// An equilibrium is found for every solution. It conserves every component to 1e-9, and
// nothing is below zero.
func TestEquilibriumConservesEveryComponent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, kelvin := drawCold(t)
		e, err := Anchored().Equilibrium(c, kelvin)
		require.NoError(t, err)
		require.GreaterOrEqual(t, e.LiquidFraction, 0.0)
		total := e.LiquidFraction
		var salts [saltCount]float64
		for s, w := range e.Liquid.salts() {
			salts[s] = e.LiquidFraction * w
		}
		for k, mass := range e.Solid {
			require.GreaterOrEqual(t, mass, 0.0)
			total += mass
			if salt, ok := Solid(k).Salt(); ok {
				salts[salt] += mass * salt.MolarMass() / Solid(k).MolarMass()
			}
		}
		require.InDelta(t, 1, total, 1e-9)
		for s, w := range c.salts() {
			require.InDelta(t, w, salts[s], 1e-9, "%v", Salt(s))
		}
	})
}

// An equilibrium is found beyond the checked strength too: up to 42 % of any of the
// salts, over the whole range of temperature.
func TestEquilibriumIsAlwaysFound(t *testing.T) {
	g := rand.New(rand.NewPCG(42, 0))
	for range 20_000 {
		var w [saltCount]float64
		sum := 1e-12
		for s := range w {
			if g.IntN(2) == 0 {
				w[s] = g.ExpFloat64() * math.Pow(10, -3*g.Float64())
				sum += w[s]
			}
		}
		total := 0.42 * g.Float64()
		for s := range w {
			w[s] *= total / sum
		}
		kelvin := Floor + 1e-6 + (zeroCelsius+40-Floor-1e-6)*g.Float64()
		_, err := Anchored().Equilibrium(fromSalts(w, 0), kelvin)
		require.NoError(t, err, "%v at %v", w, kelvin)
	}
}

// The remaining liquid is just saturated with every solid that is present, and not
// supersaturated with any other. Liquids of less than a millionth are left out: their
// fractions have lost digits.
func TestEquilibriumLiquidIsSaturated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, kelvin := drawCold(t)
		e, err := Anchored().Equilibrium(c, kelvin)
		require.NoError(t, err)
		if e.LiquidFraction < 1e-6 || e.Liquid.Check() != nil {
			return
		}
		for k, mass := range e.Solid {
			si, err := Anchored().SaturationIndex(Solid(k), e.Liquid, kelvin)
			require.NoError(t, err)
			require.LessOrEqual(t, si, 1e-6, "%v", Solid(k))
			if mass > 0 {
				require.InDelta(t, 0, si, 1e-6, "%v", Solid(k))
			}
		}
	})
}

// Just above the first solid all is liquid, just below there is that solid alone.
func TestEquilibriumBeginsAtTheFirstSolid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := drawCold(t)
		f, err := Anchored().Freezing(c)
		require.NoError(t, err)
		first := f.First()
		if !first.Found || first.Saturated || first.Temperature < zeroCelsius-50 {
			return
		}
		above, err := Anchored().Equilibrium(c, first.Temperature+1e-3)
		require.NoError(t, err)
		require.InDelta(t, 1, above.LiquidFraction, 1e-12)
		below, err := Anchored().Equilibrium(c, first.Temperature-1e-3)
		require.NoError(t, err)
		require.Positive(t, below.Solid[first.Solid], "%v at %g C", first.Solid, first.Temperature-zeroCelsius)
	})
}

// The liquid of freezing brine lies on the freezing curve. Below the eutectic there is
// no liquid.
func TestBrineFollowsItsFreezingCurve(t *testing.T) {
	_, eutectic, _, err := Anchored().Eutectic(NaCl)
	require.NoError(t, err)
	for celsius := -30.0; celsius <= -1; celsius += 0.5 {
		e, err := Anchored().Equilibrium(Brine(0.01), zeroCelsius+celsius)
		require.NoError(t, err)
		if zeroCelsius+celsius < eutectic {
			require.Zero(t, e.LiquidFraction, "%g C", celsius)
			require.InDelta(t, 0.01*Hydrohalite.MolarMass()/NaCl.MolarMass(), e.Salt(), 1e-12)
			continue
		}
		f, err := Anchored().Freezing(e.Liquid)
		require.NoError(t, err)
		require.InDelta(t, celsius, f.Ice.Temperature-zeroCelsius, 1e-4)
		require.InDelta(t, 1, e.Ice()+e.LiquidFraction, 1e-12)
	}
}

// Other matter stays in the liquid.
func TestOtherMatterStaysLiquid(t *testing.T) {
	for _, celsius := range []float64{-10, -40} {
		e, err := Anchored().Equilibrium(Composition{NaCl: 0.1, Other: 0.02}, zeroCelsius+celsius)
		require.NoError(t, err)
		require.InDelta(t, 0.02, e.LiquidFraction*e.Liquid.Other, 1e-12, "%g C", celsius)
	}
}

func TestEquilibriumErrors(t *testing.T) {
	_, err := Anchored().Equilibrium(Brine(0.9), zeroCelsius)
	require.ErrorIs(t, err, ErrComposition)
	_, err = Anchored().Equilibrium(Brine(0.2), zeroCelsius-80)
	require.ErrorIs(t, err, ErrTemperature)
}

// solve reports a singular system.
func TestSingularSystem(t *testing.T) {
	a := square{{1, 2}, {2, 4}}
	b := column{1, 2}
	require.False(t, solve(&a, &b, 2))
}
