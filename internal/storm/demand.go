package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// RoutePlan is what a route gets.
type RoutePlan struct {
	Route    yard.Route
	Demanded quantity.Volume
	Given    quantity.Volume // what there is for it, however long it takes
	Served   quantity.Volume
	InTime   quantity.Volume // of it, from trucks that are back by By
	// From is when its trucks may leave, By when it must be down, without bound where nothing is said, and DownAt when it is.
	From, By, DownAt quantity.Duration
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
		route.From, route.By = y.r.Start, cmp.Or(y.r.DownBy, never)
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
