package storm

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// By hand: the truck of the short route is back at 1:18, half an hour after 0:48, so that of 28 F at 0:48 and 24 F at 1:48 it
// meets 26 F, and then 24 F, and what comes later is warmer.
func TestStormMeetsThePavement(t *testing.T) {
	r := handYard()
	at := func(f float64) quantity.Temperature { return quantity.Fahrenheit(f) }
	p, err := Make(r)
	require.NoError(t, err)
	require.Nil(t, p.Routes[0].Meets)
	down := p.Routes[0].DownAt
	half := quantity.Duration(1800)
	r.Pavement = []Hour{{down - half, at(28)}, {down + half, at(24)}, {down + 4*half, at(30)}}
	require.InDelta(t, float64(at(26)), float64(r.pavementAt(down)), 1e-9)
	require.Equal(t, at(28), r.pavementAt(down-2*half))
	require.Equal(t, at(30), r.pavementAt(down+9*half))
	p, err = Make(r)
	require.NoError(t, err)
	require.InDelta(t, float64(at(24)), float64(p.Routes[0].Meets.Coldest), 1e-9)
	require.Positive(t, p.Routes[0].Meets.PerVolume)
	// Down after the coldest hour it meets only what comes then.
	r.Pavement = []Hour{{down - 2*half, at(10)}, {down - half, at(31)}}
	p, err = Make(r)
	require.NoError(t, err)
	require.InDelta(t, float64(at(31)), float64(p.Routes[0].Meets.Coldest), 1e-9)
}
