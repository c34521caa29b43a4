package truck

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// By the lever, by hand: the middle of the tank lies 1 m ahead of the rear axle and 4 m behind the front one, so that a fifth
// of the load rests in front. 3,000 kg on the rear axle when empty, of 7,000: 4,000 kg are 4/5 of 5,000 kg, 4 m3 at
// 1,250 kg/m3. In front 2,000 of 2,500 leave 500 kg, a fifth of 2,500 kg, 2 m3.
func TestAxles(t *testing.T) {
	k := yard.Truck{Tank: 9, Empty: 5000, Axles: &yard.Axles{FrontEmpty: 2000, FrontLimit: 4000, RearLimit: 7000, Wheelbase: 5, Ahead: 1}}
	v, by := Fits(k, 1250, 0)
	require.InDelta(t, 4, float64(v), 1e-12)
	require.Equal(t, ByRear, by)
	k.Axles.FrontLimit = 2500
	v, by = Fits(k, 1250, 0)
	require.InDelta(t, 2, float64(v), 1e-12)
	require.Equal(t, ByFront, by)
	// A tank that hangs out behind takes weight off the front axle, and puts more than its own behind.
	k.Axles.Ahead = -1
	v, by = Fits(k, 1250, 0)
	require.InDelta(t, 4000/1.2/1250, float64(v), 1e-12)
	require.Equal(t, ByRear, by)
}

// No axle, and not the whole, is over its limit, and something is at it where the tank is not full.
func TestAxlesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mass := func(low, high float64, name string) quantity.Mass {
			return quantity.Mass(rapid.Float64Range(low, high).Draw(t, name))
		}
		a := yard.Axles{FrontEmpty: mass(1000, 3000, "front"), Wheelbase: quantity.Length(rapid.Float64Range(3, 6).Draw(t, "wheelbase"))}
		rear := mass(1000, 4000, "rear")
		a.FrontLimit, a.RearLimit = a.FrontEmpty+mass(300, 4000, "more"), rear+mass(300, 9000, "more behind")
		a.Ahead = a.Wheelbase * quantity.Length(rapid.Float64Range(-0.4, 0.9).Draw(t, "ahead"))
		margin := mass(0, 150, "margin")
		r := Request{
			Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(40), Tank: quantity.Volume(rapid.Float64Range(0.5, 12).Draw(t, "tank")),
			Empty: a.FrontEmpty + rear, Margin: margin, Axles: &a,
		}
		r.Gross = r.Empty + mass(400, 12000, "payload")
		out, err := Calculate(r)
		require.NoError(t, err)
		l := out.Load
		require.InEpsilon(t, float64(l.Front+l.Rear), float64(l.Total), 1e-12)
		// Moments about the rear axle.
		require.InEpsilon(t, float64(a.FrontEmpty)*float64(a.Wheelbase)+float64(l.Weight)*float64(a.Ahead), float64(l.Front)*float64(a.Wheelbase), 1e-9)
		over := func(more float64) bool {
			weight := float64(l.Weight) * more
			front := float64(a.FrontEmpty) + weight*float64(a.Ahead/a.Wheelbase)
			whole := float64(r.Empty) + weight
			kept := float64(margin) * float64(a.FrontLimit/(a.FrontLimit+a.RearLimit))
			return whole > float64(r.Gross-margin) || front > float64(a.FrontLimit)-kept || whole-front > float64(a.RearLimit)-float64(margin)+kept
		}
		require.False(t, over(1-1e-9))
		require.Equal(t, l.By != ByTank, l.Volume < r.Tank)
		if l.By != ByTank {
			require.True(t, over(1+1e-9))
		}
	})
}

// 40 gal/mi at 30 mph on two lanes are 40 gal/min; a pump of 25 suffices to 18.75 mph.
func TestBoomPump(t *testing.T) {
	r := Request{Liquid: balance.SaltBrine(0.233), Temperature: quantity.Fahrenheit(40), Rate: quantity.RatePerLength(40 * float64(quantity.Gallon) / float64(quantity.Mile)),
		Speed: 30 * quantity.MilePerHour, Lanes: 2, BoomMost: 25 * quantity.GallonPerMinute}
	out, err := Calculate(r)
	require.NoError(t, err)
	require.True(t, out.Spray.Beyond)
	require.InDelta(t, 18.75, float64(out.Spray.MostSpeed/quantity.MilePerHour), 1e-9)
	r.BoomMost = 40 * quantity.GallonPerMinute
	out, err = Calculate(r)
	require.NoError(t, err)
	require.False(t, out.Spray.Beyond)
}
