package storm

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// Routes of a higher priority are served whole before others get anything; within
// one, those that can be served whole.
func TestStormPriorities(t *testing.T) {
	r := handYard()
	*r.Pile.OnHand = 0
	r.Routes = []yard.Route{
		{Name: "thirsty", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 60 * gallonPerMile, Priority: 2},
		{Name: "frugal", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 30 * gallonPerMile, Priority: 2},
		{Name: "first", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 50 * gallonPerMile, Priority: 1},
		{Name: "last", Liquid: balance.BrineName, Lanes: quantity.Mile, Rate: 10 * gallonPerMile},
	}
	p, err := Make(r)
	require.NoError(t, err)
	var names []string
	for _, route := range p.Routes {
		names = append(names, route.Route.Name)
	}
	require.Equal(t, []string{"first", "frugal", "thirsty", "last"}, names)
	// 1,000 gal: 500, 300, then 200 of 600, and nothing.
	require.InDelta(t, 200, float64(p.Routes[2].Served/quantity.Gallon), 1e-6)
	require.Zero(t, p.Routes[3].Served)
	require.Equal(t, SaltEnds, p.Production.Shortage)
	require.InDelta(t, 410, float64(p.Short/quantity.Gallon), 1e-6)
}

// Brine is not made for a route that lacks its liquid, its salt or a truck.
func TestStormMakesNothingInVain(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.31}}, OnHand: 100 * quantity.Gallon}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.2}}
	r.Routes = []yard.Route{{Name: "mixed", Liquid: "mix", Lanes: 100 * quantity.Mile, Rate: 40 * gallonPerMile}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Production.Batches) // 100 gal go with 400 of brine, and 1,000 are there
	require.InDelta(t, 500, float64(p.Loaded/quantity.Gallon), 5)

	r = handYard()
	r.Routes[0].Trucks = []string{"nosuch"}
	p, err = Make(r)
	require.NoError(t, err)
	require.Equal(t, Lack{Why: NoTruck}, p.Routes[0].Lack)
	require.Zero(t, p.Routes[0].Served)
	require.InEpsilon(t, 800, float64(p.Loaded/quantity.Gallon), 1e-9)
	require.Zero(t, p.Production.Batches)
	require.InEpsilon(t, 20*float64(quantity.Mile), float64(p.Cost.Lanes), 1e-9)
}

// Dry salt for pre-wetting comes off the same pile: it is set aside before batches are
// planned, and a pile that is too small for it serves the route in part. Salt by hand:
// 250 lb x 16 mi = 4,000 lb for 20 gal of brine.
func TestStormDrySalt(t *testing.T) {
	r := handYard()
	wet := yard.Route{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Passes: 1,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}
	r.Routes = append(r.Routes, wet)
	*r.Pile.OnHand = 4000*quantity.Pound + 2300*quantity.Pound // enough for one batch of 2,289 lb
	p, err := Make(r)
	require.NoError(t, err)
	// The plain routes come first and take 1,800 gal, 4,119.6 lb; 2,180.4 lb are left for 4,000, and for its brine of 20 gal.
	require.Equal(t, 2, p.Production.Batches)
	require.Zero(t, p.Routes[0].Lack)
	require.InEpsilon(t, 4000*(6300-1.8*2288.69)/(4000+0.02*2288.69), float64(p.DrySalt/quantity.Pound), 1e-4)
	require.Equal(t, Lack{Why: NoDrySalt}, p.Routes[2].Lack)

	r.Routes, *r.Pile.OnHand = []yard.Route{wet}, 1000*quantity.Pound
	p, err = Make(r)
	require.NoError(t, err)
	require.Equal(t, Lack{Why: NoDrySalt}, p.Routes[0].Lack)
	require.InEpsilon(t, 0.25, float64(p.Routes[0].Served/p.Routes[0].Demanded), 1e-12)
	price := quantity.PricePerMass(1 / float64(quantity.Pound))
	*r.Pile.OnHand, r.Prices.Salt = 9000*quantity.Pound, &price
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 4000+20*9.8227*0.233, float64(*p.Cost.Salt), 1e-4)
}

// Two pre-wetted routes share a pile: 4,000 lb each of 6,000 leave half for the second.
// Chloride of the salt by hand, with that of the brine: 35.453 / 58.443 of either.
func TestStormSharesThePile(t *testing.T) {
	r := handYard()
	wet := yard.Route{Name: "one", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}
	two := wet
	two.Name = "two"
	r.Routes, *r.Pile.OnHand = []yard.Route{wet, two}, 6000*quantity.Pound
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Routes[0].Lack)
	require.Equal(t, Lack{Why: NoDrySalt}, p.Routes[1].Lack)
	require.InEpsilon(t, 0.5, float64(p.Routes[1].Served/p.Routes[1].Demanded), 1e-12)
	require.InEpsilon(t, 6000, float64(p.DrySalt/quantity.Pound), 1e-12)
	require.InEpsilon(t, (6000+30*9.8227*0.233)*35.453/58.443*0.45359237, float64(p.Cost.Chloride), 1e-4)
}

// Two routes of one liquid that stands for one of them: what is wanted adds up, and brine is
// made for what can be mixed. 20 % of 2,000 gal are 400 each of 400 on hand; the first
// takes them, with 1,600 gal of brine of which 1,000 are there.
func TestStormLiquidForOneOfTwo(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.31).Named("cal"), OnHand: 401 * quantity.Gallon}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.2}}
	route := yard.Route{Name: "one", Liquid: "mix", Lanes: 50 * quantity.Mile, Rate: 40 * gallonPerMile}
	two := route
	two.Name = "two"
	r.Routes = []yard.Route{route, two}
	p, err := Make(r)
	require.NoError(t, err)
	// Volumes shrink by some parts in a thousand in mixing.
	require.InEpsilon(t, 800, float64(p.Liquids[0].Wanted/quantity.Gallon), 5e-3)
	require.Equal(t, 1, p.Production.Batches)
	require.InEpsilon(t, 600, float64(p.Production.Wanted/quantity.Gallon), 2e-2)
}

// What stands in store takes nothing off the pile: 900 and 20 gal of 1,000 need no batch,
// so of 5,000 lb 4,000 go to pre-wetting, though a batch of 2,289 lb would serve what
// comes last; that gets 80 gal, and what 1,000 lb make: 436.9.
func TestStormStoreComesFirst(t *testing.T) {
	r := handYard()
	r.Routes = []yard.Route{
		{Name: "plain", Liquid: balance.BrineName, Lanes: 20 * quantity.Mile, Rate: 45 * gallonPerMile, Priority: 1},
		{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Priority: 2,
			Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
			SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))},
		{Name: "last", Liquid: balance.BrineName, Lanes: 20 * quantity.Mile, Rate: 45 * gallonPerMile, Priority: 3},
	}
	*r.Pile.OnHand = 5000 * quantity.Pound
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, 1, p.Production.Batches)
	require.InEpsilon(t, 4000, float64(p.DrySalt/quantity.Pound), 1e-12)
	require.InEpsilon(t, 80+1000/(9.8227*0.233), float64(p.Routes[2].Served/quantity.Gallon), 1e-4)
}

// A pile that pre-wetting uses up is of no matter to a route that needs none of it,
// whatever rounding leaves of the pile: of 1,000 gal in store the wet route takes some, and
// 400 are left for the plain one.
func TestStormPlainRouteNeedsNoPile(t *testing.T) {
	for pounds := 1000.0; pounds < 4000; pounds += 37 {
		r := handYard()
		r.Routes = []yard.Route{
			{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Priority: 1,
				Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
				SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))},
			{Name: "plain", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile, Priority: 2},
		}
		*r.Pile.OnHand = quantity.Mass(pounds) * quantity.Pound
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, Lack{Why: NoDrySalt}, p.Routes[0].Lack)
		require.Zero(t, p.Routes[1].Lack, "%g lb", pounds)
	}
}
