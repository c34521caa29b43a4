package storm

import (
	"cmp"
	"fmt"
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
	Meets    *Met            // nil without a forecast by the hour, or where nothing lies
	Again    bool            // a later pass over lanes that an earlier one has
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

// demand works out what each route takes in each window, and of which liquids.
func (y *stormYard) demand(p *Plan) error {
	windows := y.r.windows()
	for i, w := range windows {
		for _, r := range y.r.Routes {
			one := r
			if len(windows) > 1 {
				one.Passes = passesIn(max(1, r.Passes), i, len(windows))
				one.Name = fmt.Sprintf("%s, pass %d", r.Name, i+1)
			}
			if len(windows) > 1 && one.Passes == 0 {
				continue
			}
			if err := y.demandOf(p, one, w); err != nil {
				return err
			}
			p.Routes[len(p.Routes)-1].Again = i > 0
		}
	}
	return nil
}

// passesIn is how many of a route's passes are in a window: one in each, and what is left in the last.
func passesIn(passes, window, windows int) int {
	if window == windows-1 {
		return max(0, passes-window)
	}
	return min(1, max(0, passes-window))
}

// demandOf adds what a route takes in a window.
func (y *stormYard) demandOf(p *Plan, r yard.Route, w Window) (err error) {
	route := RoutePlan{Route: r, Demanded: r.Volume(), LaneLength: r.Length() * quantity.Length(max(1, r.Passes))}
	route.From, route.By = w.Start, cmp.Or(w.DownBy, never)
	if route.recipe, err = y.recipe(r.Liquid, route.Demanded); err != nil {
		return err
	}
	route.fits = y.fits(&route)
	if route.other > 0 {
		p.want(route.bought, route.other)
	}
	p.Demanded += route.Demanded
	p.Routes = append(p.Routes, route)
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
		if len(r.Route.Trucks) == 0 || slices.Contains(r.Route.Trucks, t.Name) {
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
