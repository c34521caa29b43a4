package ready

import (
	"math"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// 2,500 lb of pure salt in 1,000 gal of water at 60 F, which weigh 8.3378 lb/gal (IAPWS-95: 999.1 kg/m3 at 15.6 C), are
// 2500 / (2500 + 8337.8) = 23.07 %.
func TestChargeEnd(t *testing.T) {
	c := Charge{Salt: 2500 * quantity.Pound, Quality: yard.PureSalt(), Water: 1000 * quantity.Gallon, Warm: quantity.Fahrenheit(60)}
	end, err := c.End()
	require.NoError(t, err)
	require.InDelta(t, 0.2307, float64(end), 5e-5)
	c.Quality = yard.RockSalt{Purity: 0.95, Moisture: 0.04}
	end, err = c.End()
	require.NoError(t, err)
	require.InDelta(t, 2500*0.96*0.95/(2500*0.96*0.95+8337.8+100), float64(end), 5e-5)
	// The same by the volume that it makes: the brine of the first charge.
	c.Quality, c.Water = yard.PureSalt(), 0
	c.Full = (2500 + 8337.8) * quantity.Volume(quantity.Pound) / quantity.Volume(balance.BrineDensity(0.2307, quantity.Fahrenheit(60)))
	end, err = c.End()
	require.NoError(t, err)
	require.InDelta(t, 0.2307, float64(end), 5e-5)
	c.Full /= 2
	end, err = c.End()
	require.NoError(t, err)
	full, _ := balance.Saturation(c.Warm)
	require.Equal(t, full, end, "more than dissolves is a bed")
	c.Full = 0
	_, err = c.End()
	require.Error(t, err)
}

// The water of a tank stays while salt dissolves.
func TestRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := quantity.Strength(rapid.Float64Range(0, 0.2).Draw(t, "from"))
		to := from + quantity.Strength(rapid.Float64Range(0, 0.05).Draw(t, "more"))
		at := quantity.Fahrenheit(rapid.Float64Range(35, 90).Draw(t, "at"))
		v := Rise(1, from, to, at)
		require.GreaterOrEqual(t, float64(v), 1-1e-12)
		water := func(v quantity.Volume, w quantity.Strength) float64 {
			return float64(v) * float64(balance.BrineDensity(w, at)) * float64(1-w)
		}
		require.InEpsilon(t, water(1, from), water(v, to), 1e-12)
	})
}

// The closed form of shrinking grains against steps of the differential equation.
func TestGrains(t *testing.T) {
	const saturation, end, start = 0.2635, 0.238, 0.06
	g := newGrains(saturation, end, end-start)
	s, tau := start, 0.0
	const step = 1e-4
	for s < end-1e-5 {
		left := (end - s) / (end - start)
		s += step * (saturation - s) * math.Pow(left, 2.0/3)
		tau += step
		if math.Mod(tau, 0.5) < step {
			require.InDelta(t, s, end-(end-start)*g.left(tau), 2e-4, "at %g", tau)
			require.InDelta(t, tau, g.until((end-s)/(end-start)), 5e-3*tau, "at %g", tau)
		}
	}
	require.Zero(t, g.left(2*tau))
	require.Equal(t, 1.0, g.left(0))
}
