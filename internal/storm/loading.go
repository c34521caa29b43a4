package storm

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// Loading is how the trucks are filled, from Start on, one at a time at the pump.
type Loading struct {
	Loads             []TruckLoad
	FirstOut, LastOut quantity.Duration
	Driven            quantity.Length   // there and back
	OnTheRoad         quantity.Duration // of all trucks
	Trucks            []TruckDay
}

// TruckLoad is a load on its way.
type TruckLoad struct {
	Truck, Route string
	Volume       quantity.Volume
	Start, Out   quantity.Duration
	Back         quantity.Duration
}

// TruckDay sums up the loads of a truck.
type TruckDay struct {
	Truck             string
	Loads             int
	Volume            quantity.Volume
	FirstOut, LastOut quantity.Duration
	Back              quantity.Duration
}

// count adds a load, and to its truck's day.
func (l *Loading) count(load TruckLoad, way quantity.Length) {
	if len(l.Loads) == 0 {
		l.FirstOut = load.Out
	}
	l.Loads = append(l.Loads, load)
	l.LastOut = load.Out
	l.Driven += 2 * way
	l.OnTheRoad += load.Back - load.Out
	at := slices.IndexFunc(l.Trucks, func(d TruckDay) bool { return d.Truck == load.Truck })
	if at < 0 {
		at = len(l.Trucks)
		l.Trucks = append(l.Trucks, TruckDay{Truck: load.Truck, FirstOut: load.Out})
	}
	d := &l.Trucks[at]
	d.Loads++
	d.Volume += load.Volume
	d.LastOut, d.Back = load.Out, load.Back
}

// load sends out what the routes were given: at each moment the load that can start
// first, and of those the one for the route that comes first.
func (y *stormYard) load(p *Plan) {
	l := &p.Loading
	free := make([]quantity.Duration, len(y.r.Trucks))
	for i := range free {
		free[i] = y.r.Start
	}
	left := make([]quantity.Volume, len(p.Routes))
	for i, r := range p.Routes {
		left[i] = r.Served
		if len(y.r.Trucks) == 0 || r.Cause == TruckName {
			left[i] = 0
		}
	}
	for fillPoint := y.r.Start; len(l.Loads) < mostLoads; {
		route, k := y.next(p, left, free, fillPoint)
		if route < 0 {
			return
		}
		r := &p.Routes[route]
		v := min(left[route], carries(y.r.Trucks[k], r))
		load := y.trip(r, k, v, max(fillPoint, free[k]))
		l.count(load, r.laneOf(v))
		fillPoint, free[k] = load.Out, load.Back
		if left[route] -= v; left[route] < r.Served*1e-9 {
			left[route] = 0
		}
	}
}

// mostLoads bounds the work for a truck that carries next to nothing.
const mostLoads = 20000

// next finds the load that can start first; -1 when all is out.
func (y *stormYard) next(p *Plan, left []quantity.Volume, free []quantity.Duration, fillPoint quantity.Duration) (route, at int) {
	route, at = -1, -1
	best := quantity.Duration(math.Inf(1))
	for i := range p.Routes {
		if left[i] <= 0 {
			continue
		}
		for k := range y.r.Trucks {
			if !y.mayServe(k, &p.Routes[i]) {
				continue
			}
			if start := max(fillPoint, free[k]); start < best {
				route, at, best = i, k, start
			}
		}
		if best <= fillPoint {
			break // nothing starts sooner, and no later route comes first
		}
	}
	return route, at
}

// mayServe tells whether a truck can carry anything for a route, and may.
func (y *stormYard) mayServe(k int, r *RoutePlan) bool {
	t := y.r.Trucks[k]
	return (r.Route.Truck == "" || r.Route.Truck == t.Name) && carries(t, r) > 0
}

// carried tells whether any truck serves a route.
func (y *stormYard) carried(r *RoutePlan) bool {
	for k := range y.r.Trucks {
		if y.mayServe(k, r) {
			return true
		}
	}
	return false
}

// trip is a load on its way, there and back.
func (y *stormYard) trip(r *RoutePlan, k int, v quantity.Volume, start quantity.Duration) TruckLoad {
	t := y.r.Trucks[k]
	out := start + v.Over(y.r.Plant.Pump)
	road := quantity.Duration(2 * float64(r.laneOf(v)) / float64(truck.SpeedOf(t)))
	return TruckLoad{t.Name, r.Route.Name, v, start, out, out + road}
}

// laneOf is the length of lanes that a volume serves.
func (r *RoutePlan) laneOf(v quantity.Volume) quantity.Length {
	return r.LaneLength * quantity.Length(v/r.Demanded)
}

// carries is what a truck takes for a route; a pre-wetted route's salt rides along.
func carries(t yard.Truck, r *RoutePlan) quantity.Volume {
	weight := r.density
	if r.Route.Prewet > 0 {
		weight += quantity.Density(1 / float64(r.Route.Prewet))
	}
	v, _ := truck.Fits(t, weight)
	return v
}

// Cost is what the storm costs and lays down. A part is nil where a price is
// not known; Total sums those that are.
type Cost struct {
	Salt, Water, Additive, Labour, Driving *quantity.Money
	Total                                  quantity.Money
	Missing                                bool // a price is not known
	PerVolume                              *quantity.PricePerVolume
	PerLane                                *quantity.PricePerLength
	Lanes                                  quantity.Length // served, all passes
	Chloride                               quantity.Mass
	ChloridePerLane                        quantity.MassPerLength
	ChloridePerArea                        float64 // kg/m2, on lanes of 12 feet
	// DrySalt is the same lanes with dry salt at the rate given, with its chloride;
	// nil without rate or price.
	DrySalt         *quantity.Money
	DrySaltChloride quantity.Mass
}

// cost prices what is loaded: brine at what it takes to make it, whenever it was
// made.
func (y *stormYard) cost(p *Plan) {
	c := &p.Cost
	price := y.r.Prices
	rock := y.r.Plant.RockSalt
	delivered := y.loaded.Salt/rock.SodiumChloride() + float64(p.DrySalt)
	water := (y.loaded.Mass - y.loaded.Salt) / 1000 // m3, near enough for its price
	if price.Salt != nil {
		c.Salt = money(float64(*price.Salt) * delivered)
	}
	if price.Water != nil {
		c.Water = money(float64(*price.Water) * water)
	}
	additive, known := 0.0, true
	for _, l := range p.Liquids {
		o, v := y.others[l.Name], y.extra[l.Name]
		known = known && o.price != nil
		if o.price != nil {
			additive += float64(*o.price) * float64(v)
		}
		if rho, err := o.liquid.Density(y.r.Temperature); err == nil {
			c.Chloride += quantity.Mass(float64(v.Mass(rho)) * o.liquid.Composition.Chloride())
		}
	}
	if known {
		c.Additive = money(additive)
	}
	if price.Labour != nil {
		making := p.Production.DoneAt - y.r.Now
		c.Labour = money(float64(*price.Labour) * float64(making+p.Loading.OnTheRoad))
	}
	if price.Driving != nil {
		c.Driving = money(float64(*price.Driving) * float64(p.Loading.Driven))
	}
	for _, part := range []*quantity.Money{c.Salt, c.Water, c.Additive, c.Labour, c.Driving} {
		if part == nil {
			c.Missing = true
			continue
		}
		c.Total += *part
	}
	c.Chloride += quantity.Mass(y.loaded.Chloride) + chlorideOf(p.DrySalt, rock)
	c.perUnit(p, y.r)
}

// perUnit spreads cost and chloride over what is served.
func (c *Cost) perUnit(p *Plan, r Request) {
	for _, route := range p.Routes {
		if route.Demanded > 0 {
			c.Lanes += route.LaneLength * quantity.Length(route.Served/route.Demanded)
		}
	}
	if p.Loaded > 0 {
		v := quantity.PricePerVolume(float64(c.Total) / float64(p.Loaded))
		c.PerVolume = &v
	}
	if c.Lanes == 0 {
		return
	}
	l := quantity.PricePerLength(float64(c.Total) / float64(c.Lanes))
	c.PerLane = &l
	c.ChloridePerLane = quantity.MassPerLength(float64(c.Chloride) / float64(c.Lanes))
	c.ChloridePerArea = float64(c.ChloridePerLane) / float64(yard.LaneWidth)
	if dry := float64(r.Prices.DrySalt) * float64(c.Lanes); dry > 0 && r.Prices.Salt != nil {
		c.DrySalt = money(float64(*r.Prices.Salt) * dry)
		c.DrySaltChloride = chlorideOf(quantity.Mass(dry), r.Plant.RockSalt)
	}
}

// chlorideOf is the chloride in rock salt as delivered.
func chlorideOf(m quantity.Mass, rock yard.RockSalt) quantity.Mass {
	return quantity.Mass(float64(m) * solution.Brine(rock.SodiumChloride()).Chloride())
}

func money(x float64) *quantity.Money {
	m := quantity.Money(math.Max(0, x))
	return &m
}
