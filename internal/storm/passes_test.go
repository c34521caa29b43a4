package storm

import (
	"testing"

	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// Three passes in two windows: one in the first, two in the second, each loaded from its own start on. By hand: 10 lane-miles
// at 40 gal/mi are 400 gal a pass.
func TestStormPassesInWindows(t *testing.T) {
	r := handYard()
	r.Routes = r.Routes[1:]
	r.Routes[0].Passes = 3
	hour := quantity.Duration(3600)
	r.Passes = []Window{{r.Now + 6*hour, r.Now + 8*hour}, {r.Now + 20*hour, 0}}
	r.Start = r.Passes[0].Start
	p, err := Make(r)
	require.NoError(t, err)
	require.Len(t, p.Routes, 2)
	require.InEpsilon(t, 400, float64(p.Routes[0].InTime/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 800, float64(p.Routes[1].Served/quantity.Gallon), 1e-9)
	for _, l := range p.Loading.Loads {
		for i, route := range p.Routes {
			if route.Route.Name == l.Route {
				require.GreaterOrEqual(t, l.Start, r.Passes[i].Start)
			}
		}
	}
	require.InEpsilon(t, 10, float64(p.Cost.Road/quantity.Mile), 1e-9) // lanes as they are, once
	require.InEpsilon(t, 30, float64(p.Cost.Lanes/quantity.Mile), 1e-9)
}
