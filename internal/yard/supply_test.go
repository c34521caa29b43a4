package yard

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A tank of 900 gal that gives 120 gal/min while 20 gal/min run in is down after 9 minutes and 1,080 gal; the next 100 gal
// take 5 minutes more.
func TestFillTime(t *testing.T) {
	s := Supply{Flow: 20 * quantity.GallonPerMinute, Tank: 900 * quantity.Gallon, TankFlow: 120 * quantity.GallonPerMinute}
	minutes := func(gallons float64) float64 {
		return float64(s.FillTime(quantity.Volume(gallons)*quantity.Gallon) / quantity.Minute)
	}
	require.InDelta(t, 5, minutes(600), 1e-9)
	require.InDelta(t, 9, minutes(1080), 1e-9)
	require.InDelta(t, 14, minutes(1180), 1e-9)
	s.TankFlow = 0 // as the pump draws
	require.InDelta(t, 6, float64(s.Fed(100*quantity.GallonPerMinute).FillTime(600*quantity.Gallon)/quantity.Minute), 1e-9)
	require.InDelta(t, 30, float64(s.FillTime(600*quantity.Gallon)/quantity.Minute), 1e-9, "nothing is known of the pump")
	s.Flow = 200 * quantity.GallonPerMinute
	require.InDelta(t, 6, float64(s.Fed(100*quantity.GallonPerMinute).FillTime(600*quantity.Gallon)/quantity.Minute), 1e-9)
	require.Zero(t, Supply{}.FillTime(1))
	require.Zero(t, Supply{Tank: 1, TankFlow: 1}.FillTime(2), "it never comes")
}

// Counted in small steps it takes as long.
func TestFillTimeByStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Supply{
			Flow:     quantity.Flow(rapid.Float64Range(0.1, 3).Draw(t, "flow")),
			Tank:     quantity.Volume(rapid.Float64Range(0.5, 20).Draw(t, "tank")),
			TankFlow: quantity.Flow(rapid.Float64Range(0.1, 9).Draw(t, "tank flow")),
		}
		wanted := rapid.Float64Range(1, 60).Draw(t, "volume")
		tank, got, at := float64(s.Tank), 0.0, 0.0
		const step = 1e-3
		for got < wanted {
			out := float64(s.TankFlow) * step
			out = min(out, tank+float64(s.Flow)*step)
			tank = min(float64(s.Tank), tank+float64(s.Flow)*step-out)
			got, at = got+out, at+step
		}
		require.InDelta(t, at, float64(s.FillTime(quantity.Volume(wanted))), 0.02+0.002*at)
	})
}
