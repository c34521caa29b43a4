package storm

import (
	"cmp"
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

// coldWeight is what a volume weighs at the night's low, or at 14 F where that is colder.
func (y *replayed) coldWeight(name string) quantity.Density {
	at := max(y.r.Low, 263.15)
	if at > y.r.Temperature {
		at = y.r.Temperature
	}
	liquid := balance.SaltBrine(y.r.Band.Target)
	for _, l := range y.r.Others {
		if l.Name == name {
			liquid = l.Liquid
		}
	}
	for _, b := range y.r.Blends {
		if b.Name == name {
			liquid = y.mixed(b)
		}
	}
	rho, err := liquid.Density(at)
	require.NoError(y.t, err)
	return rho
}

// mixed is a blend by the volumes that go in as they are measured.
func (y *replayed) mixed(b yard.Blend) balance.Liquid {
	added := y.r.Others[slices.IndexFunc(y.r.Others, func(l yard.Liquid) bool { return l.Name == b.Additive })].Liquid
	rho, err := added.Density(y.r.Temperature)
	require.NoError(y.t, err)
	var mix balance.Vessel
	mix.Add(balance.SaltBrine(y.r.Band.Target), quantity.Volume(1-b.Share).Mass(y.target))
	mix.Add(added, quantity.Volume(b.Share).Mass(rho))
	return mix.Liquid
}

// carries is what a truck takes for a route by the weights, and whether it serves it.
func (y *replayed) carries(t yard.Truck, r yard.Route) quantity.Volume {
	weight := y.coldWeight(r.Liquid)
	if r.Prewet > 0 {
		weight += quantity.Density(1 / r.Prewet)
	}
	if len(r.Trucks) > 0 && !slices.Contains(r.Trucks, t.Name) {
		return 0
	}
	return min(t.Tank, max(0, (t.Gross-t.Empty-90.718474).Volume(weight))) // 200 lb are kept
}

// wanted is what all passes of a route take, and the dry salt for it.
func wanted(r yard.Route) (quantity.Volume, quantity.Mass) {
	passes := float64(r.Passes)
	salt := float64(r.SaltRate) * float64(r.Lanes) * passes
	if r.Prewet > 0 {
		return quantity.Volume(float64(r.Prewet) * salt), quantity.Mass(salt)
	}
	if r.Area > 0 {
		return quantity.Volume(float64(r.AreaRate) * float64(r.Area) * passes), 0
	}
	return quantity.Volume(float64(r.Rate) * float64(r.Lanes) * passes), 0
}

// lanesOf is the length of all passes of a route, an area as lanes of 12 feet.
func lanesOf(r yard.Route) quantity.Length {
	return (r.Lanes + quantity.Length(float64(r.Area)/(12*0.3048))) * quantity.Length(r.Passes)
}

// demand works out what each route is to get.
func (y *replayed) demand() {
	y.left = map[string]quantity.Volume{}
	for _, route := range y.p.Routes {
		v, _ := wanted(route.Route)
		y.near(float64(v), float64(route.Demanded), 0, "demand")
		y.left[route.Route.Name] = route.Served
	}
	for _, t := range y.r.Trucks {
		y.trucks[t.Name] = y.r.Now
	}
}

// serve adds up what the routes got.
func (y *replayed) serve() {
	var demanded, loaded, inTime quantity.Volume
	var dry quantity.Mass
	rank := func(priority int) int { return (priority + 9) % 10 } // 0 comes last
	for i, route := range y.p.Routes {
		if i > 0 {
			require.LessOrEqual(y.t, rank(y.p.Routes[i-1].Route.Priority), rank(route.Route.Priority), y.about)
		}
		v, salt := wanted(route.Route)
		share := quantity.Mass(route.Served / v)
		if len(y.r.Trucks) == 0 {
			y.takeLiquids(route, route.Served)
		}
		dry += salt * share
		demanded, loaded, inTime = demanded+v, loaded+route.Served, inTime+route.InTime
		if len(y.r.Trucks) == 0 {
			continue
		}
		y.near(float64(y.down[route.Route.Name]), float64(route.InTime), float64(route.Served), "in time")
	}
	for _, route := range y.p.Routes {
		_, _, which, _ := y.parts(route.Route.Liquid)
		y.lacks(route, float64(route.Served/route.Demanded), which)
	}
	require.GreaterOrEqual(y.t, float64(y.stands()), -y.shrinkage()-float64(y.toFill), "%s: more is loaded than there is", y.about)
	require.GreaterOrEqual(y.t, float64(y.pile), -1e-9*float64(*y.r.Pile.OnHand), y.about)
	gap, filled := float64(y.p.ReserveGap), float64(min(y.toFill, y.p.Production.Made))
	lacking := float64(y.r.Reserve - y.stands())
	require.GreaterOrEqual(y.t, gap, max(0, lacking-y.shrinkage()), y.about)
	require.LessOrEqual(y.t, gap, max(0, lacking+filled)+y.shrinkage(), y.about)
	y.near(float64(demanded), float64(y.p.Demanded), 0, "demanded")
	y.near(float64(loaded), float64(y.p.Loaded), 0, "loaded")
	y.near(float64(inTime), float64(y.p.InTime), float64(loaded), "in time")
	y.near(float64(demanded-loaded), float64(y.p.Short), float64(demanded), "short")
	y.near(float64(dry), float64(y.p.DrySalt), 0, "dry salt")
	require.LessOrEqual(y.t, float64(inTime), float64(y.p.Bound)*(1+1e-9)+1e-12, "%s: above the bound", y.about)
}

// leastSalt is of the smallest batch that is mixed in any mixing tank: of less nothing is made.
func (y *replayed) leastSalt() (least quantity.Mass) {
	for _, m := range y.r.Mixers {
		rock, _ := y.batch(m.PumpOff / 50)
		least = max(least, rock)
	}
	return least
}

// stands is the brine that can be loaded.
func (y *replayed) stands() quantity.Volume {
	v := y.store
	for _, m := range y.mixers {
		v += m.finished
	}
	return v
}

// takeLiquids takes what is loaded for a route: brine out of the mixing tanks first.
func (y *replayed) takeLiquids(route RoutePlan, v quantity.Volume) {
	_, salt := wanted(route.Route)
	brine, other, which, _ := y.parts(route.Route.Liquid)
	y.bought[which] -= other * v
	y.pile -= salt * quantity.Mass(v/route.Demanded)
	rest := brine * v
	mixers := slices.Clone(y.r.Mixers)
	slices.SortStableFunc(mixers, func(a, b yard.Tank) int { return cmp.Compare(b.PumpOff, a.PumpOff) })
	for _, m := range mixers {
		if now := y.mixers[m.Name]; now != nil && now.finished > 0 && rest > 0 && len(y.r.Trucks) > 0 {
			part := min(rest, now.finished)
			rest -= part
			if now.finished -= part; now.finished < 1e-8*m.PumpOff {
				now.finished, now.free = 0, y.pump
			}
		}
	}
	y.store -= rest
	y.room += rest
}

// shrinkage is what the volume of all brine may be off by.
func (y *replayed) shrinkage() float64 { return mixing * y.made.Plus(y.start).Total() / 1000 }

// lacks sees that what a route lacks is gone, and that it lacks something if it is not served.
func (y *replayed) lacks(route RoutePlan, share float64, which string) {
	carried := len(y.r.Trucks) == 0
	for _, t := range y.r.Trucks {
		carried = carried || y.carries(t, route.Route) > 0
	}
	require.Equal(y.t, !carried, route.Lack.Why == NoTruck, y.about)
	require.Less(y.t, share, 1+1e-12, y.about)
	require.Equal(y.t, float64(route.InTime) < float64(route.Demanded)*(1-1e-9), route.Lack != Lack{}, "%s: %+v", y.about, route)
	require.GreaterOrEqual(y.t, float64(y.bought[which]), -1e-9, y.about)
	switch route.Lack.Why {
	case NoShortage:
		require.InEpsilon(y.t, 1, share, 1e-12, y.about)
	case BrineEnds:
		require.NotEqual(y.t, NoShortage, y.p.Production.Shortage, y.about)
		require.LessOrEqual(y.t, float64(y.stands()), y.shrinkage()+float64(min(y.toFill, y.p.Production.Made)), y.about)
	case NoTime:
		require.Less(y.t, float64(route.InTime), float64(route.Demanded), y.about)
	case LiquidEnds:
		require.Equal(y.t, which, route.Lack.Liquid)
		require.InDelta(y.t, 0, float64(y.bought[which]), 1e-9, y.about)
	case NoDrySalt:
		require.LessOrEqual(y.t, float64(y.pile), float64(y.leastSalt())+1e-9*float64(*y.r.Pile.OnHand), y.about)
	case NoTruck:
		require.Zero(y.t, share, y.about)
	}
}

// sumTrucks compares the trucks' days and what they come to.
func (y *replayed) sumTrucks() {
	plan := y.p.Loading
	days := map[string]TruckDay{}
	var driven quantity.Length
	var road quantity.Duration
	for _, l := range plan.Loads {
		driven += 2 * y.way(l)
		road += l.Back - l.Out
		day := days[l.Truck]
		if day.Loads == 0 {
			day.Truck, day.FirstOut = l.Truck, l.Out
		}
		day.Loads, day.Volume, day.LastOut, day.Back = day.Loads+1, day.Volume+l.Volume, l.Out, l.Back
		days[l.Truck] = day
	}
	for name, v := range y.left {
		require.LessOrEqual(y.t, float64(v), 1e-8, "%s: %s is not brought out", y.about, name)
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

// planOf is the route of a load.
func (y *replayed) planOf(l TruckLoad) RoutePlan {
	return y.p.Routes[slices.IndexFunc(y.p.Routes, func(r RoutePlan) bool { return r.Route.Name == l.Route })]
}

// way is how far a load's lanes go.
func (y *replayed) way(l TruckLoad) quantity.Length {
	route := y.planOf(l)
	return lanesOf(route.Route) * quantity.Length(l.Volume/route.Demanded)
}

// send loads a truck with what is there and what it carries.
func (y *replayed) send(l TruckLoad) {
	truck := y.r.Trucks[slices.IndexFunc(y.r.Trucks, func(t yard.Truck) bool { return t.Name == l.Truck })]
	route := y.planOf(l)
	require.Positive(y.t, l.Volume, y.about)
	require.LessOrEqual(y.t, float64(l.Volume), float64(min(y.left[l.Route], y.carries(truck, route.Route)))*(1+1e-9), "%s: load", y.about)
	require.GreaterOrEqual(y.t, float64(l.Start), float64(max(y.pump, y.trucks[l.Truck], y.r.Start))-1e-6, "%s: the pump or %s does two things at once", y.about, l.Truck)
	y.near(float64(l.Start)+float64(l.Volume)/float64(cmp.Or(y.r.LoadFlow, y.r.Pump.Flow)), float64(l.Out), 0, "out")
	y.near(float64(l.Out)+2*float64(y.way(l))/float64(cmp.Or(truck.Speed, 30*quantity.MilePerHour)), float64(l.Back), 0, "back")
	y.pump, y.trucks[l.Truck] = l.Out, l.Back
	y.takeLiquids(route, l.Volume)
	slack := y.shrinkage()/1e3 + float64(y.toFill) + 1e-6*float64(route.Demanded)
	require.GreaterOrEqual(y.t, float64(y.stands()), -slack, "%s: %s is loaded before there is brine", y.about, l.Truck)
	y.left[l.Route] -= l.Volume
	if y.r.DownBy == 0 || l.Back <= y.r.DownBy+1e-6 {
		y.down[l.Route] += l.Volume
	}
}

// weigh checks that nothing is lost: what was there and what was made is loaded or left.
func (y *replayed) weigh() {
	b := y.p.Balance
	y.near(y.start.Total(), b.Start.Total(), 0, "brine at the start")
	y.near(y.start.NaCl, b.Start.NaCl, 0, "NaCl at the start")
	y.near(y.made.Total(), b.Made.Total(), 1, "brine made")
	y.near(y.made.NaCl, b.Made.NaCl, 1, "NaCl made")
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

// price works out cost and chloride anew. Atomic weights (IUPAC): Na 22.990, Cl 35.453, Ca
// 40.078.
func (y *replayed) price() {
	c, p, price := y.p.Cost, y.p, y.r.Prices
	quality := float64(y.r.Pile.Quality.Purity) * float64(1-y.r.Pile.Quality.Moisture)
	nacl, total, missing := p.Balance.Loaded.NaCl, 0.0, false
	bill := func(price, amount float64, got *quantity.Money, what string) {
		if math.IsNaN(price) {
			require.Nil(y.t, got, what)
			missing = true
			return
		}
		y.near(price*amount, float64(*got), 1, what)
		total += price * amount
	}
	bought, chloride := y.priceBought()
	bill(bought, 1, c.Additive, "liquids")
	bill(priceOf(price.Salt), nacl/quality+float64(p.DrySalt), c.Salt, "salt")
	bill(priceOf(price.Water), p.Balance.Loaded.Water/1000, c.Water, "water")
	bill(priceOf(price.Labour), float64(p.Production.DoneAt-y.r.Now+p.Loading.OnTheRoad), c.Labour, "labour")
	bill(priceOf(price.Driving), float64(p.Loading.Driven), c.Driving, "driving")
	require.Equal(y.t, missing, c.Missing)
	y.near(total, float64(c.Total), 1, "cost")
	chloride += (nacl + float64(p.DrySalt)*quality) * 35.453 / (22.990 + 35.453)
	require.InDelta(y.t, chloride, float64(c.Chloride), 1e-4*chloride+1e-9, y.about) // rounded atomic weights
	lanes := 0.0
	for _, route := range p.Routes {
		lanes += float64(lanesOf(route.Route)) * float64(route.Served/route.Demanded)
	}
	y.near(lanes, float64(c.Lanes), 1, "lanes")
	if lanes > 0 {
		y.near(float64(c.Chloride)/lanes, float64(c.ChloridePerLane), 1, "chloride on a lane")
		if c.Priced {
			y.near(total/lanes, float64(*c.PerLane), 1, "cost of a lane")
		}
	}
	if p.Loaded > 0 && c.Priced {
		y.near(total/float64(p.Loaded), float64(*c.PerVolume), 1, "cost of a volume")
	}
}

// priceBought is the cost of bought liquids, not a number where a price is not known, and
// the chloride in them.
func (y *replayed) priceBought() (cost, chloride float64) {
	for _, route := range y.p.Routes {
		_, other, which, _ := y.parts(route.Route.Liquid)
		if other == 0 {
			continue
		}
		_, _, _, weight := y.parts(which)
		l := y.r.Others[slices.IndexFunc(y.r.Others, func(l yard.Liquid) bool { return l.Name == which })]
		v := float64(other * route.Served)
		cost += v * priceOf(l.Price)
		chloride += v * float64(weight) * l.Composition.CaCl2 * 2 * 35.453 / (40.078 + 2*35.453)
	}
	return cost, chloride
}

// priceOf is a price; not a number where it is not known.
func priceOf[P ~float64](p *P) float64 {
	if p == nil {
		return math.NaN()
	}
	return float64(*p)
}
