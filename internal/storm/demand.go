package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// RoutePlan is what a route gets.
type RoutePlan struct {
	Route    yard.Route
	Demanded quantity.Volume
	Served   quantity.Volume
	// LaneLength is that of all passes, an area counted as lanes of 12 feet.
	LaneLength quantity.Length
	Lack       Lack // of what it goes short first; its zero value when served in full

	recipe
	fits []quantity.Volume // for the route in each truck; 0 in one that does not serve it
}

// carried tells whether any truck serves the route.
func (r *RoutePlan) carried() bool {
	return slices.ContainsFunc(r.fits, func(v quantity.Volume) bool { return v > 0 })
}

// LiquidNeed is what the routes take of a liquid that is not made in the yard.
type LiquidNeed struct {
	Name           string
	Wanted, OnHand quantity.Volume
}

// demand works out what each route takes, and of which liquids.
func (y *stormYard) demand(p *Plan) error {
	for _, r := range y.r.Routes {
		route := RoutePlan{Route: r, Demanded: r.Volume(), LaneLength: r.Length() * quantity.Length(max(1, r.Passes))}
		var err error
		if route.recipe, err = y.recipe(r.Liquid, route.Demanded); err != nil {
			return err
		}
		route.fits = y.fits(&route)
		if route.other > 0 {
			p.want(route.bought, route.other)
		}
		p.Demanded += route.Demanded
		p.Routes = append(p.Routes, route)
	}
	return nil
}

// fits is what each truck takes for a route. A pre-wetted route's salt rides along.
func (y *stormYard) fits(r *RoutePlan) []quantity.Volume {
	weight := r.weight
	if r.Route.Prewet > 0 {
		weight += quantity.Density(1 / float64(r.Route.Prewet))
	}
	fits := make([]quantity.Volume, len(y.r.Trucks))
	for k, t := range y.r.Trucks {
		if r.Route.Truck == "" || r.Route.Truck == t.Name {
			fits[k], _ = truck.Fits(t, weight, truck.UsualMargin)
		}
	}
	return fits
}

// want adds to what the routes take of a bought liquid.
func (p *Plan) want(o *bought, v quantity.Volume) {
	at := slices.IndexFunc(p.Liquids, func(l LiquidNeed) bool { return l.Name == o.name })
	if at < 0 {
		at = len(p.Liquids)
		p.Liquids = append(p.Liquids, LiquidNeed{Name: o.name, OnHand: o.left})
	}
	p.Liquids[at].Wanted += v
}

// order sorts the routes: by priority, and among equals those first that take least of
// what is scarce for a lane, so that most lanes are served.
func (y *stormYard) order(p *Plan, runs []MixerRun) {
	wanted := quantity.Volume(0)
	for _, r := range p.Routes {
		wanted += r.brine
	}
	have := max(0, y.usable()+y.gain(y.produce(runs, wanted+y.r.Reserve, 0).Made)-y.r.Reserve)
	brine, others := scarcity(wanted, have), map[*bought]float64{}
	for _, l := range p.Liquids {
		others[y.bought(l.Name)] = scarcity(l.Wanted, l.OnHand)
	}
	cost := func(r *RoutePlan) float64 {
		c := float64(r.brine)*brine + float64(r.other)*others[r.bought]
		if c == 0 {
			c = 1e-9 * float64(r.Demanded) // nothing is scarce
		}
		return nineDigits(c / float64(r.LaneLength))
	}
	slices.SortStableFunc(p.Routes, func(a, b RoutePlan) int {
		return cmp.Or(cmp.Compare(orLast(a.Route.Priority), orLast(b.Route.Priority)), cmp.Compare(cost(&a), cost(&b)))
	})
}

// nineDigits rounds, so that rounding errors order nothing: equal routes stay as the file has them.
func nineDigits(x float64) float64 {
	if x <= 0 || math.IsInf(x, 1) {
		return x
	}
	scale := math.Pow(10, 9-math.Ceil(math.Log10(x)))
	return math.Round(x*scale) / scale
}

// scarcity weighs a liquid of which more is wanted than there is; 0 for one that
// suffices.
func scarcity(wanted, have quantity.Volume) float64 {
	if wanted <= have {
		return 0
	}
	return 1 / float64(max(have, wanted*1e-6))
}

// orLast puts what has no priority behind all that have one.
func orLast(priority int) int {
	if priority == 0 {
		return math.MaxInt
	}
	return priority
}
