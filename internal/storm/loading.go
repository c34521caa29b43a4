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

// LastBack is when the last truck is back.
func (l Loading) LastBack() quantity.Duration {
	last := quantity.Duration(0)
	for _, d := range l.Trucks {
		last = max(last, d.Back)
	}
	return last
}

// loaded is all that went out.
func (l Loading) loaded() (v quantity.Volume) {
	for _, d := range l.Trucks {
		v += d.Volume
	}
	return v
}

const (
	// everySubset is the number of trucks up to which every choice of them is tried.
	everySubset = 5
	// mostTried is the number of loads above which no truck is left at home.
	mostTried = 600
)

// load sends out what the routes were given, with the trucks that bring the last one back soonest: a slow or small truck
// that would be the last on the road stays at home.
func (y *stormYard) load(p *Plan) {
	used := make([]bool, len(y.r.Trucks))
	for k := range used {
		used[k] = true
	}
	best := y.loadWith(p, used)
	if n := len(used); n > 1 && len(best.Loads) <= mostTried {
		if n <= everySubset {
			best = y.everyChoice(p, best)
		} else {
			best = y.leaveHome(p, used, best)
		}
	}
	p.Loading = best
}

// sooner reports whether a plan of loads is better: it carries as much, and the last truck is back sooner.
func sooner(a, b Loading) bool {
	va, vb := a.loaded(), b.loaded()
	if diff := va - vb; diff > 1e-9*vb || diff < -1e-9*vb {
		return va > vb
	}
	return a.LastBack() < b.LastBack()-1e-6
}

// everyChoice tries every choice of trucks.
func (y *stormYard) everyChoice(p *Plan, best Loading) Loading {
	used := make([]bool, len(y.r.Trucks))
	for set := 1; set < 1<<len(used)-1; set++ {
		for k := range used {
			used[k] = set>>k&1 == 1
		}
		if l := y.loadWith(p, used); sooner(l, best) {
			best = l
		}
	}
	return best
}

// leaveHome leaves one truck after the other at home, as long as that is better.
func (y *stormYard) leaveHome(p *Plan, used []bool, best Loading) Loading {
	for {
		out := -1
		for k := range used {
			if !used[k] {
				continue
			}
			used[k] = false
			if l := y.loadWith(p, used); sooner(l, best) {
				best, out = l, k
			}
			used[k] = true
		}
		if out < 0 {
			return best
		}
		used[out] = false
	}
}

// loadWith sends out with some trucks: at each moment the load that can start
// first, and of those the one for the route that comes first.
func (y *stormYard) loadWith(p *Plan, used []bool) Loading {
	l := Loading{}
	free := make([]quantity.Duration, len(y.r.Trucks))
	for k := range free {
		if free[k] = y.r.Start; !used[k] {
			free[k] = never
		}
	}
	left := make([]quantity.Volume, len(p.Routes))
	for i, r := range p.Routes {
		left[i] = r.Served
	}
	for fillPoint := y.r.Start; len(l.Loads) < mostLoads; {
		route, k := next(p.Routes, left, free, fillPoint)
		if route < 0 || free[k] == never {
			break
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
	return l
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
