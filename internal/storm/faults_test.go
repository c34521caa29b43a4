package storm

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// An empty tank swallows what lies below its suction: that much more is made, and nothing is missing without a cause.
func TestStormFillsDeadVolume(t *testing.T) {
	r := handYard()
	empty := quantity.Volume(0)
	r.Tanks = []yard.Tank{{Name: "s", Capacity: 8000 * quantity.Gallon, DeadVolume: 500 * quantity.Gallon, Contents: &empty, LiquidName: balance.BrineName}}
	r.Mixers = []yard.Tank{{Name: "m", PumpOff: 1100 * quantity.Gallon, MixTime: 1800}}
	r.Routes = []yard.Route{{Name: "plain", Lanes: 40 * quantity.Mile, Rate: 50 * gallonPerMile, Passes: 1, Liquid: balance.BrineName}}
	r.Trucks, r.Reserve, r.Pile.OnHand = nil, 0, nil
	r.Start = r.Now + 24*quantity.Duration(3600)
	p, err := Make(r)
	require.NoError(t, err)
	require.InDelta(t, 2000, float64(p.Loaded/quantity.Gallon), 0.01)
	require.Zero(t, p.Short)
	require.Equal(t, 3, p.Production.Batches)
}

// A pile of 16,259 lb of pure salt makes 16,259 / (9.8227 x 0.233) = 7,104 gal of brine, the last of it in a part of a batch;
// of whole batches of 1,933, 1,934, 1,644 and 2,064 gal no more than 6,996.
func TestStormUsesThePile(t *testing.T) {
	r := handYard()
	r.Mixers = nil
	for _, gallons := range []float64{1933, 1934, 1644, 2064} {
		r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint(gallons), PumpOff: quantity.Volume(gallons) * quantity.Gallon, MixTime: 1800})
	}
	r.Tanks[0].Capacity = 60000 * quantity.Gallon
	r.Routes, r.Trucks = r.Routes[:1], nil
	r.Routes[0].Lanes *= 10
	*r.Pile.OnHand = 16259 * quantity.Pound
	r.Start = r.Now + 40*3600
	p, err := Make(r)
	require.NoError(t, err)
	require.InDelta(t, 7104, float64(p.Production.Made/quantity.Gallon), 1)
	require.Equal(t, SaltEnds, p.Production.Shortage)
}

// Counted out: of random batches and piles no set of batches makes more of what is wanted.
func TestStormPileAgainstAllSets(t *testing.T) {
	for seed := range uint64(60) {
		g := draws{rand.New(rand.NewPCG(seed, 5))}
		r := handYard()
		r.Mixers, r.Trucks, r.Routes = nil, nil, r.Routes[:1]
		for i := range 1 + g.IntN(4) {
			r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint(i), PumpOff: g.gallons(600, 2500), MixTime: 1800})
		}
		r.Tanks[0].Capacity, r.Routes[0].Lanes = 60000*quantity.Gallon, 400*quantity.Mile
		*r.Pile.OnHand = quantity.Mass(g.between(2000, 20000)) * quantity.Pound
		r.Start = r.Now + 90*3600
		p, err := Make(r)
		require.NoError(t, err)
		perGallon := 9.8227 * 0.233 // lb of pure salt in brine of 23.3 % at 60 F
		most := 0.0
		var try func(i int, made float64)
		try = func(i int, made float64) {
			if made*perGallon > float64(*r.Pile.OnHand/quantity.Pound) {
				return
			}
			if most = max(most, made); i < len(r.Mixers) {
				try(i+1, made)
				try(i, made+float64(r.Mixers[i].PumpOff/quantity.Gallon))
			}
		}
		try(0, 0)
		require.GreaterOrEqual(t, float64(p.Production.Made/quantity.Gallon), most-1, "seed %d", seed)
	}
}

// Equal routes keep the order of the file, whenever the storm begins.
func TestStormKeepsTheOrder(t *testing.T) {
	for start := 13; start < 30; start++ {
		r := handYard()
		r.Start = quantity.Duration(start) * 3600
		r.Routes = nil
		for i, lanes := range []float64{10, 30, 7, 13} {
			r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint(i), Liquid: balance.BrineName, Lanes: quantity.Length(lanes) * quantity.Mile, Rate: 41 * gallonPerMile, Passes: 1, Priority: 1})
		}
		p, err := Make(r)
		require.NoError(t, err)
		last := map[bool]string{} // of those served whole, and of the others
		for _, route := range p.Routes {
			whole := route.Lack == Lack{}
			require.Less(t, last[whole], route.Route.Name, "start %d", start)
			last[whole] = route.Route.Name
		}
	}
}

// One truck more never brings the last one back later.
func TestStormOneTruckMore(t *testing.T) {
	for seed := range uint64(80) {
		g := draws{rand.New(rand.NewPCG(seed, 8))}
		r := drawStorm(seed)
		r.Trucks = nil
		for i := range 1 + g.IntN(4) {
			r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: g.gallons(150, 2500), Speed: quantity.Speed(g.between(3, 20))})
		}
		for i := range r.Routes {
			r.Routes[i].Trucks = nil
		}
		before, err := Make(r)
		require.NoError(t, err)
		r.Trucks = append(r.Trucks, yard.Truck{Name: "pickup", Tank: g.gallons(100, 400), Speed: quantity.Speed(g.between(2, 8))})
		after, err := Make(r)
		require.NoError(t, err)
		d := more(after.InTime, before.InTime)
		require.True(t, d >= 0 || r.DownBy > 0 && len(r.Routes) > 1, "seed %d", seed)
		if d == 0 && more(after.Loaded, before.Loaded) == 0 {
			require.LessOrEqual(t, float64(after.Loading.LastBack()), float64(before.Loading.LastBack())+1.001, "seed %d", seed)
		}
	}
}

// A route that is pre-wetted and empties the pile leaves the brine in store to a plain one behind it: 30 mi at 250 lb/mi
// and 8 gal/ton before 60 mi at 50 gal/mi, with 6,000 gal in store, for 280 sizes of the pile.
func TestStormPlainRouteBehindPrewetted(t *testing.T) {
	for size := range 280 {
		r := handYard()
		r.Tanks[0].Capacity, r.Tanks[0].Contents = 8000*quantity.Gallon, new(6000*quantity.Gallon)
		*r.Pile.OnHand = quantity.Mass(25*size) * quantity.Pound
		r.Pile.Quality = yard.RockSalt{Purity: 0.962, Moisture: 0.016}
		r.Routes = []yard.Route{
			{Name: "wet", Liquid: balance.BrineName, Lanes: 30 * quantity.Mile, SaltRate: 250 * quantity.MassPerLength(quantity.Pound) / quantity.MassPerLength(quantity.Mile), Prewet: 8 * quantity.VolumePerMass(quantity.Gallon) / (2000 * quantity.VolumePerMass(quantity.Pound)), Passes: 1, Priority: 1},
			{Name: "plain", Liquid: balance.BrineName, Lanes: 60 * quantity.Mile, Rate: 50 * gallonPerMile, Passes: 1, Priority: 2},
		}
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, "plain", p.Routes[1].Route.Name)
		require.InEpsilon(t, 3000, float64(p.Routes[1].Served/quantity.Gallon), 1e-9, "%d lb", 25*size)
	}
}

// Of 1,000 gal the first route takes 600; the second, of 500, would get a part, and the third, of 400, fits: it goes whole,
// and the second gets nothing. A route of a lower priority does not come before a part of a higher one.
func TestStormWholeRoutesFirst(t *testing.T) {
	r := handYard()
	*r.Pile.OnHand = 0
	r.Routes = nil
	for i, gallons := range []float64{600, 500, 400} {
		r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint(i), Liquid: balance.BrineName, Lanes: quantity.Length(gallons/50) * quantity.Mile, Rate: 50 * gallonPerMile, Priority: 1})
	}
	gets := func() map[string]float64 {
		p, err := Make(r)
		require.NoError(t, err)
		served := map[string]float64{}
		for _, route := range p.Routes {
			served[route.Route.Name] = math.Round(float64(route.Served / quantity.Gallon))
		}
		return served
	}
	require.Equal(t, map[string]float64{"0": 600, "1": 0, "2": 400}, gets())
	r.Routes[2].Priority = 2
	require.Equal(t, map[string]float64{"0": 600, "1": 400, "2": 0}, gets())
}
