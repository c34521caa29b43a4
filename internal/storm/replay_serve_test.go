package storm

import (
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// parts takes a liquid of a route apart: brine and bought liquid for one volume of it, and
// what that weighs.
func (y *replayed) parts(name string) (brine, other quantity.Volume, which string, weight quantity.Density) {
	find := func(name string) (balance.Liquid, quantity.Density) {
		at := slices.IndexFunc(y.r.Others, func(l yard.Liquid) bool { return l.Name == name })
		rho, err := y.r.Others[at].Density(y.r.Temperature)
		require.NoError(y.t, err)
		return y.r.Others[at].Liquid, rho
	}
	for _, b := range y.r.Blends {
		if b.Name == name {
			added, rho := find(b.Additive)
			var mix balance.Vessel
			mix.Add(balance.SaltBrine(y.r.Band.Target), quantity.Volume(1-b.Share).Mass(y.target))
			mix.Add(added, quantity.Volume(b.Share).Mass(rho))
			mixed, err := mix.Density(y.r.Temperature)
			require.NoError(y.t, err)
			of := quantity.Volume(float64(mixed) / float64(mix.Mass))
			return of * quantity.Volume(1-b.Share), of * quantity.Volume(b.Share), b.Additive, mixed
		}
	}
	if name == balance.BrineName {
		return 1, 0, "", y.target
	}
	_, rho := find(name)
	return 0, 1, name, rho
}

// carries is what a truck takes for a route by the weights, and whether it serves it.
func (y *replayed) carries(t yard.Truck, r yard.Route) quantity.Volume {
	_, _, _, weight := y.parts(r.Liquid)
	if r.Prewet > 0 {
		weight += quantity.Density(1 / r.Prewet)
	}
	if r.Truck != "" && r.Truck != t.Name {
		return 0
	}
	return min(t.Tank, max(0, (t.Gross-t.Empty).Volume(weight)))
}

// wanted is what all passes of a route take, and the dry salt for it.
func wanted(r yard.Route) (quantity.Volume, quantity.Mass) {
	passes := float64(r.Passes)
	salt := float64(r.SaltRate) * float64(r.Lanes) * passes
	if r.Prewet > 0 {
		return quantity.Volume(float64(r.Prewet) * salt), quantity.Mass(salt)
	}
	return quantity.Volume(float64(r.Rate) * float64(r.Lanes) * passes), 0
}

// serve hands out what there is, route by route, and sees that what a route lacks is gone.
func (y *replayed) serve() {
	var demanded, loaded quantity.Volume
	var dry quantity.Mass
	slack, filled := mixing*y.made.Plus(y.start).Total()/1000, float64(min(y.toFill, y.p.Production.Made))
	rank := func(priority int) int { return (priority + 9) % 10 } // 0 comes last
	for i, route := range y.p.Routes {
		if i > 0 {
			require.LessOrEqual(y.t, rank(y.p.Routes[i-1].Route.Priority), rank(route.Route.Priority), y.about)
		}
		v, salt := wanted(route.Route)
		share := float64(route.Served / v)
		y.near(float64(v), float64(route.Demanded), 0, "demand")
		brine, other, which, _ := y.parts(route.Route.Liquid)
		y.store -= brine * route.Served
		y.bought[which] -= other * route.Served
		y.pile -= salt * quantity.Mass(share)
		dry += salt * quantity.Mass(share)
		demanded, loaded = demanded+v, loaded+route.Served
		carried := len(y.r.Trucks) == 0
		for _, t := range y.r.Trucks {
			carried = carried || y.carries(t, route.Route) > 0
		}
		require.Equal(y.t, !carried, route.Lack.Why == NoTruck, y.about)
		switch route.Lack.Why {
		case NoShortage:
			require.InEpsilon(y.t, 1, share, 1e-12, y.about)
		case BrineEnds:
			require.LessOrEqual(y.t, float64(y.store), slack+filled, y.about)
		case LiquidEnds:
			require.Equal(y.t, which, route.Lack.Liquid)
			require.InDelta(y.t, 0, float64(y.bought[which]), 1e-9, y.about)
		case NoDrySalt:
			require.InDelta(y.t, 0, float64(y.pile), 1e-6, y.about)
		case NoTruck:
			require.Zero(y.t, route.Served, y.about)
		}
		require.Less(y.t, share, 1+1e-12, y.about)
		require.Equal(y.t, share < 1-1e-9, route.Lack != Lack{}, "%s: %+v", y.about, route)
		require.GreaterOrEqual(y.t, float64(y.bought[which]), -1e-9, y.about)
	}
	require.GreaterOrEqual(y.t, float64(y.store), -slack, "%s: more is loaded than there is", y.about)
	require.GreaterOrEqual(y.t, float64(y.pile), -1e-6, y.about)
	gap := float64(y.p.ReserveGap)
	require.GreaterOrEqual(y.t, gap, max(0, float64(y.r.Reserve-y.store)-slack), y.about)
	require.LessOrEqual(y.t, gap, max(0, float64(y.r.Reserve-y.store)+filled)+slack, y.about)
	y.near(float64(demanded), float64(y.p.Demanded), 0, "demanded")
	y.near(float64(loaded), float64(y.p.Loaded), 0, "loaded")
	y.near(float64(demanded-loaded), float64(y.p.Short), float64(demanded), "short")
	y.near(float64(dry), float64(y.p.DrySalt), 0, "dry salt")
}

// load sends the trucks out, one load after the other.
func (y *replayed) load() {
	left, days := map[string]quantity.Volume{}, map[string]TruckDay{}
	var driven quantity.Length
	var road quantity.Duration
	for _, route := range y.p.Routes {
		left[route.Route.Name] = route.Served
	}
	for _, t := range y.r.Trucks {
		y.trucks[t.Name] = y.r.Start
	}
	pump := y.r.Start
	for _, l := range y.p.Loading.Loads {
		truck := y.r.Trucks[slices.IndexFunc(y.r.Trucks, func(t yard.Truck) bool { return t.Name == l.Truck })]
		route := y.p.Routes[slices.IndexFunc(y.p.Routes, func(r RoutePlan) bool { return r.Route.Name == l.Route })]
		y.near(float64(min(left[l.Route], y.carries(truck, route.Route))), float64(l.Volume), 0, "load")
		y.near(float64(max(pump, y.trucks[l.Truck])), float64(l.Start), 0, "start")
		y.near(float64(l.Start)+float64(l.Volume)/float64(y.r.Pump.Flow), float64(l.Out), 0, "out")
		way := route.Route.Lanes * quantity.Length(route.Route.Passes) * quantity.Length(l.Volume/route.Demanded)
		speed := cmpOr(truck.Speed, 30*quantity.MilePerHour)
		y.near(float64(l.Out)+2*float64(way)/float64(speed), float64(l.Back), 0, "back")
		pump, y.trucks[l.Truck] = l.Out, l.Back
		left[l.Route] -= l.Volume
		driven, road = driven+2*way, road+l.Back-l.Out
		day := days[l.Truck]
		if day.Loads == 0 {
			day.Truck, day.FirstOut = l.Truck, l.Out
		}
		day.Loads, day.Volume, day.LastOut, day.Back = day.Loads+1, day.Volume+l.Volume, l.Out, l.Back
		days[l.Truck] = day
	}
	plan := y.p.Loading
	if len(y.r.Trucks) > 0 {
		for name, v := range left {
			require.InDelta(y.t, 0, float64(v), 1e-8, "%s: %s is not brought out", y.about, name)
		}
	}
	if n := len(plan.Loads); n > 0 {
		require.Equal(y.t, plan.Loads[0].Out, plan.FirstOut)
		require.Equal(y.t, plan.Loads[n-1].Out, plan.LastOut)
	}
	y.near(float64(driven), float64(plan.Driven), 0, "driven")
	y.near(float64(road), float64(plan.OnTheRoad), 0, "on the road")
	require.Len(y.t, plan.Trucks, len(days))
	for _, d := range plan.Trucks {
		require.Equal(y.t, days[d.Truck], d, y.about)
	}
}

func cmpOr(a, b quantity.Speed) quantity.Speed {
	if a > 0 {
		return a
	}
	return b
}

// weigh checks that nothing is lost: what was there and what was made is loaded or left.
func (y *replayed) weigh() {
	b := y.p.Balance
	y.near(y.start.Total(), b.Start.Total(), 0, "brine at the start")
	y.near(y.start.NaCl, b.Start.NaCl, 0, "NaCl at the start")
	y.near(y.made.Total(), b.Made.Total(), 0, "brine made")
	y.near(y.made.NaCl, b.Made.NaCl, 0, "NaCl made")
	y.near(b.Start.Plus(b.Made).Total(), b.Loaded.Plus(b.Left).Total(), 0, "brine")
	y.near(b.Start.Plus(b.Made).NaCl, b.Loaded.Plus(b.Left).NaCl, 0, "NaCl")
	var brine quantity.Volume
	for _, route := range y.p.Routes {
		part, _, _, _ := y.parts(route.Route.Liquid)
		brine += part * route.Served
	}
	least, most := y.brine(brine, y.r.Band.Low), y.brine(brine, y.r.Band.High)
	require.GreaterOrEqual(y.t, b.Loaded.Total(), least.Total()*(1-mixing), y.about)
	require.LessOrEqual(y.t, b.Loaded.Total(), most.Total()*(1+1e-9), y.about)
	require.GreaterOrEqual(y.t, b.Loaded.NaCl, least.NaCl*(1-mixing), y.about)
	require.LessOrEqual(y.t, b.Loaded.NaCl, most.NaCl*(1+1e-9), y.about)
}

// price works out cost and chloride anew; atomic weights: Na 22.990, Cl 35.453, Ca 40.078.
func (y *replayed) price() {
	c, p, price := y.p.Cost, y.p, y.r.Prices
	quality := float64(y.r.Pile.Quality.Purity) * float64(1-y.r.Pile.Quality.Moisture)
	nacl := p.Balance.Loaded.NaCl
	var bought, lanes float64
	var missing bool
	chloride := (nacl + float64(p.DrySalt)*quality) * 35.453 / (22.990 + 35.453)
	for _, route := range p.Routes {
		lanes += float64(route.Route.Lanes) * float64(route.Route.Passes) * float64(route.Served/route.Demanded)
		if _, other, which, _ := y.parts(route.Route.Liquid); other > 0 {
			_, _, _, weight := y.parts(which)
			l := y.r.Others[slices.IndexFunc(y.r.Others, func(l yard.Liquid) bool { return l.Name == which })]
			v := float64(other * route.Served)
			chloride += v * float64(weight) * l.Composition.CaCl2 * 2 * 35.453 / (40.078 + 2*35.453)
			if missing = missing || l.Price == nil; l.Price != nil {
				bought += v * float64(*l.Price)
			}
		}
	}
	total := 0.0
	bill := func(price float64, known bool, amount float64, got *quantity.Money, what string) {
		require.Equal(y.t, known, got != nil, what)
		if missing = missing || !known; known {
			y.near(price*amount, float64(*got), 1, what)
			total += price * amount
		}
	}
	if missing {
		require.Nil(y.t, c.Additive)
	} else {
		bill(1, true, bought, c.Additive, "liquids")
	}
	bill(priceOf(price.Salt), price.Salt != nil, nacl/quality+float64(p.DrySalt), c.Salt, "salt")
	bill(priceOf(price.Water), price.Water != nil, p.Balance.Loaded.Water/1000, c.Water, "water")
	bill(priceOf(price.Labour), price.Labour != nil, float64(p.Production.DoneAt-y.r.Now+p.Loading.OnTheRoad), c.Labour, "labour")
	bill(priceOf(price.Driving), price.Driving != nil, float64(p.Loading.Driven), c.Driving, "driving")
	require.Equal(y.t, missing, c.Missing)
	y.near(total, float64(c.Total), 1, "cost")
	y.near(lanes, float64(c.Lanes), 1, "lanes")
	require.InDelta(y.t, chloride, float64(c.Chloride), 1e-4*chloride+1e-9, y.about) // rounded atomic weights
	if lanes > 0 {
		y.near(float64(c.Chloride)/lanes, float64(c.ChloridePerLane), 1, "chloride on a lane")
		y.near(total/lanes, float64(*c.PerLane), 1, "cost of a lane")
	}
	if p.Loaded > 0 {
		y.near(total/float64(p.Loaded), float64(*c.PerVolume), 1, "cost of a volume")
	}
}

func priceOf[P ~float64](p *P) float64 {
	if p == nil {
		return math.NaN()
	}
	return float64(*p)
}
