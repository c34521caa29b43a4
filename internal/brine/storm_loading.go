package brine

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Loading is how the trucks are filled, from Start on, one at a time at the pump.
type Loading struct {
	Loads             []TruckLoad
	FirstOut, LastOut quantity.Duration
	Driven            quantity.Length   // there and back
	OnTheRoad         quantity.Duration // of all trucks
	Trucks            []TruckDay
	// NoTruck names the routes that no truck of the yard can serve.
	NoTruck []string
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

// count adds a load to its truck's day.
func (l *Loading) count(load TruckLoad) {
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

// usualSpeed is that of a truck that the yard file says nothing of. Common practice,
// no source.
const usualSpeed = 30 * quantity.MilePerHour

// load sends out what the routes were given.
func (y *stormYard) load(p *StormPlan) error {
	l := &p.Loading
	free := make([]quantity.Duration, len(y.r.Trucks))
	for i := range free {
		free[i] = y.r.Start
	}
	fillPoint := y.r.Start
	for _, r := range p.Routes {
		if r.Served <= 0 {
			continue
		}
		liquid, err := y.liquid(r.Route.Liquid)
		if err != nil {
			return err
		}
		rho, err := liquid.Density(y.r.Temperature)
		if err != nil {
			return err
		}
		if !l.route(y, r, rho, free, &fillPoint) {
			l.NoTruck = append(l.NoTruck, r.Route.Name)
		}
	}
	return nil
}

// route loads trucks for a route until all of its volume is out; false when no truck
// can carry it.
func (l *Loading) route(y *stormYard, r RoutePlan, rho quantity.Density, free []quantity.Duration, fillPoint *quantity.Duration) bool {
	left := r.Served
	for left > r.Served*1e-9 {
		truck, takes := -1, quantity.Volume(0)
		for i, t := range y.r.Trucks {
			if r.Route.Truck != "" && r.Route.Truck != t.Name {
				continue
			}
			if v := t.carries(rho); v > 0 && (truck < 0 || free[i] < free[truck]) {
				truck, takes = i, v
			}
		}
		if truck < 0 {
			return false
		}
		t, v := y.r.Trucks[truck], min(left, takes)
		start := max(*fillPoint, free[truck])
		out := start + v.Over(y.r.Plant.Pump)
		way := quantity.Length(float64(r.LaneLength) * float64(v/r.Served) * float64(r.Served/r.Demanded))
		road := quantity.Duration(2 * float64(way) / float64(t.speed()))
		load := TruckLoad{t.Name, r.Route.Name, v, start, out, out + road}
		l.Loads = append(l.Loads, load)
		l.count(load)
		if len(l.Loads) == 1 {
			l.FirstOut = out
		}
		l.LastOut = out
		l.Driven += 2 * way
		l.OnTheRoad += road
		*fillPoint, free[truck] = out, out+road
		left -= v
	}
	return true
}

// carries is what a truck takes of a liquid, by tank and by weight.
func (t StormTruck) carries(rho quantity.Density) quantity.Volume {
	v := t.Tank
	if t.Gross > 0 {
		v = min(v, (t.Gross - t.Empty).Volume(rho))
	}
	return max(0, v)
}

func (t StormTruck) speed() quantity.Speed {
	if t.Speed > 0 {
		return t.Speed
	}
	return usualSpeed
}

// StormCost is what the storm costs and lays down. A part is nil where a price is
// not known; Total sums those that are.
type StormCost struct {
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
func (y *stormYard) cost(p *StormPlan) {
	c := &p.Cost
	price := y.r.Prices
	rock := y.r.Plant.RockSalt
	delivered := y.loaded.Salt/rock.SodiumChloride() + float64(y.drySalt)
	water := (y.loaded.Mass - y.loaded.Salt) / 1000 // m3, near enough for its price
	if price.Salt != nil {
		c.Salt = money(float64(*price.Salt) * delivered)
	}
	if price.Water != nil {
		c.Water = money(float64(*price.Water) * water)
	}
	additive, known := 0.0, true
	for name, v := range y.extra {
		o := y.others[name]
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
	c.Chloride += quantity.Mass(y.loaded.Chloride) + chlorideOf(y.drySalt, rock)
	c.perUnit(p, y.r)
}

// perUnit spreads cost and chloride over what is served.
func (c *StormCost) perUnit(p *StormPlan, r StormRequest) {
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
	c.ChloridePerArea = float64(c.ChloridePerLane) / float64(laneWidth)
	if dry := float64(r.Prices.DrySalt) * float64(c.Lanes); dry > 0 && r.Prices.Salt != nil {
		c.DrySalt = money(float64(*r.Prices.Salt) * dry)
		c.DrySaltChloride = chlorideOf(quantity.Mass(dry), r.Plant.RockSalt)
	}
}

// chlorideOf is the chloride in rock salt as delivered.
func chlorideOf(m quantity.Mass, rock RockSalt) quantity.Mass {
	return quantity.Mass(float64(m) * solution.Brine(rock.SodiumChloride()).Chloride())
}

func money(x float64) *quantity.Money {
	m := quantity.Money(math.Max(0, x))
	return &m
}
