package storm

import (
	"math"
	"slices"

	"brineyard/internal/quantity"
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

// mostLoads bounds the work for a truck that carries next to nothing.
const mostLoads = 20000

// load sends out what the routes were given: at each moment the load that can start
// first, and of those the one for the route that comes first.
func (y *stormYard) load(p *Plan) {
	l := &p.Loading
	free := make([]quantity.Duration, len(y.r.Trucks))
	for k := range free {
		free[k] = y.r.Start
	}
	left := make([]quantity.Volume, len(p.Routes))
	for i, r := range p.Routes {
		left[i] = r.Served
	}
	for fillPoint := y.r.Start; len(l.Loads) < mostLoads; {
		route, k := next(p.Routes, left, free, fillPoint)
		if route < 0 {
			return
		}
		r := &p.Routes[route]
		v := min(left[route], r.fits[k])
		load := y.trip(r, y.r.Trucks[k], v, max(fillPoint, free[k]))
		l.count(load, r.laneOf(v))
		fillPoint, free[k] = load.Out, load.Back
		if left[route] -= v; left[route] < r.Served*1e-9 {
			left[route] = 0 // rounding
		}
	}
}

// next finds the load that can start first: its route, and its truck k; -1 when all is out.
func next(routes []RoutePlan, left []quantity.Volume, free []quantity.Duration, fillPoint quantity.Duration) (route, k int) {
	route, k = -1, -1
	best := quantity.Duration(math.Inf(1))
	for i := range routes {
		if left[i] <= 0 {
			continue
		}
		for t, fits := range routes[i].fits {
			if start := max(fillPoint, free[t]); fits > 0 && start < best {
				route, k, best = i, t, start
			}
		}
		if best <= fillPoint {
			break // nothing starts sooner, and no later route comes first
		}
	}
	return route, k
}

// trip is a load on its way, there and back.
func (y *stormYard) trip(r *RoutePlan, t yard.Truck, v quantity.Volume, start quantity.Duration) TruckLoad {
	out := start + v.Over(y.r.LoadingFlow())
	road := quantity.Duration(2 * float64(r.laneOf(v)) / float64(truck.SpeedOf(t)))
	return TruckLoad{t.Name, r.Route.Name, v, start, out, out + road}
}

// laneOf is the length of lanes that a volume serves.
func (r *RoutePlan) laneOf(v quantity.Volume) quantity.Length {
	return r.LaneLength * quantity.Length(v/r.Demanded)
}
