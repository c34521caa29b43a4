package level

import (
	"math"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

const foot = 12 * quantity.Inch

// By hand: a cone 40 ft wide and 12 ft high is pi / 12 x 40 x 40 x 12 = 5,026.5 ft3, and weighs
// 402,124 lb at 80 lb/ft3. A windrow of that section, 100 ft long, has a ridge of 40 x 12 / 2 x 60 =
// 14,400 ft3 besides.
func TestPilesByHand(t *testing.T) {
	r := PileRequest{Height: 12 * foot, Width: 40 * foot, Bulk: UsualBulk, Angle: UsualAngle}
	cone, err := Weigh(r)
	require.NoError(t, err)
	require.InEpsilon(t, 402124, float64(cone.Mass/quantity.Pound), 1e-6)
	require.InDelta(t, 30.96, float64(cone.Slope), 0.01) // tan = 12/20
	r.Length = 100 * foot
	windrow, err := Weigh(r)
	require.NoError(t, err)
	require.InEpsilon(t, (5026.548+14400)*80, float64(windrow.Mass/quantity.Pound), 1e-6)
	// By the angle: at 32 deg, 12 ft stand on 38.41 ft.
	for _, one := range []PileRequest{{Height: 12 * foot}, {Width: 24 * foot / quantity.Depth(math.Tan(32*math.Pi/180))}} {
		one.Bulk, one.Angle = UsualBulk, UsualAngle
		p, err := Weigh(one)
		require.NoError(t, err)
		require.InDelta(t, 12, float64(p.Height/foot), 1e-9)
		require.InDelta(t, 38.408, float64(p.Width/foot), 1e-3)
	}
}

func TestPilesRefused(t *testing.T) {
	good := PileRequest{Height: 12 * foot, Width: 40 * foot, Bulk: UsualBulk, Angle: UsualAngle}
	for text, spoil := range map[string]func(*PileRequest){
		"neither height nor width": func(r *PileRequest) { r.Height, r.Width = 0, 0 },
		"shorter than":             func(r *PileRequest) { r.Length = 30 * foot },
		"steeper than salt lies":   func(r *PileRequest) { r.Height = 20 * foot },
		"no salt lies so":          func(r *PileRequest) { r.Angle = 75 },
		"nothing weighs nothing":   func(r *PileRequest) { r.Bulk = 0 },
	} {
		r := good
		spoil(&r)
		_, err := Weigh(r)
		var refused *fault.InputError
		require.ErrorAs(t, err, &refused, text)
		require.Contains(t, refused.Reason, text)
	}
}
