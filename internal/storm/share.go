package storm

import (
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// bound is the part of a route for which something on hand suffices. Slack is by how much it
// may fall short without being a shortage.
type bound struct {
	lack  Lack
	part  float64
	slack float64
}

// least returns the part of a route that all bounds leave, and what it lacks beyond that:
// the tightest bound, the first of equals.
func least(bounds ...bound) (share float64, lack Lack) {
	share = 1
	for _, b := range bounds {
		if b.part < share*(1-b.slack) {
			share, lack = max(0, b.part), b.lack
		}
	}
	return share, lack
}

// part is how much of what is wanted there is; infinite where nothing is wanted.
func part[Q ~float64](have, wanted Q) float64 {
	if wanted == 0 {
		return math.Inf(1)
	}
	return float64(have / wanted)
}

// byTruck is 0 for a route that no truck serves. Without trucks loading is not planned, and
// nothing is lacking.
func (y *stormYard) byTruck(r *RoutePlan) bound {
	if len(y.r.Trucks) == 0 || r.carried() {
		return bound{part: 1}
	}
	return bound{lack: Lack{Why: NoTruck}}
}

// byBought is the part for which the bought liquid suffices, less what others claim of it.
func (r *RoutePlan) byBought(claimed quantity.Volume) bound {
	o := r.bought
	if o == nil {
		return bound{part: 1}
	}
	return bound{lack: Lack{LiquidEnds, o.name}, part: part(o.left-claimed, r.other)}
}

// claims goes through the routes in order and notes what each can have at best of what
// is not made here: trucks, bought liquids, and the pile, from which both brine and
// pre-wetting draw. It returns the brine that is worth making, with the reserve, and the
// salt to be set aside.
func (y *stormYard) claims(p *Plan, runs []MixerRun) (need quantity.Volume, drySalt quantity.Mass) {
	claimed := map[*bought]quantity.Volume{}
	lacking, stock := quantity.Volume(0), y.usable()
	for i := range p.Routes {
		r := &p.Routes[i]
		share, _ := least(y.byTruck(r), r.byBought(claimed[r.bought]))
		if dry := r.Route.Salt(); dry > 0 {
			// Whole batches come first: they serve the routes before this one too.
			rest := y.r.pile() - drySalt - saltOf(lacking+max(0, r.brine*quantity.Volume(share)-stock), runs)
			share = min(share, max(0, part(rest, dry)))
			drySalt += dry * quantity.Mass(share)
		}
		brine := r.brine * quantity.Volume(share)
		claimed[r.bought] += r.other * quantity.Volume(share)
		lacking += max(0, brine-stock)
		stock = max(0, stock-brine)
		need += brine
	}
	return need + y.r.Reserve, drySalt
}

// saltOf is the least salt, as delivered, for whole batches of so much brine in one of
// the mixing tanks.
func saltOf(v quantity.Volume, runs []MixerRun) quantity.Mass {
	if len(runs) == 0 {
		return 0
	}
	least := quantity.Mass(math.Inf(1))
	for _, run := range runs {
		least = min(least, run.Salt*quantity.Mass(math.Ceil(float64(v/run.Mixer.PumpOff)-1e-9)))
	}
	return least
}

// allocate serves the routes with what there is: those of a priority that can be served whole come before those that get
// a part, each in their order. The plan's routes are then in the order in which they are served.
func (y *stormYard) allocate(p *Plan) {
	pile := y.r.pile() - p.Production.Salt
	served := make([]RoutePlan, 0, len(p.Routes))
	serve := func(r RoutePlan, share float64) {
		r.Served = r.Demanded * quantity.Volume(share)
		dry := r.Route.Salt() * quantity.Mass(share)
		pile -= dry
		p.DrySalt += dry
		y.draw(r.brine * quantity.Volume(share))
		if o := r.bought; o != nil {
			taken := min(r.other*quantity.Volume(share), o.left)
			o.left -= taken
			o.loaded += taken
		}
		p.Loaded += r.Served
		served = append(served, r)
	}
	for rest := p.Routes; len(rest) > 0; {
		group := slices.IndexFunc(rest, func(r RoutePlan) bool { return r.Route.Priority != rest[0].Route.Priority })
		if group < 0 {
			group = len(rest)
		}
		var parts []RoutePlan
		for _, r := range rest[:group] {
			if share, lack := y.share(&r, pile); share < 1 {
				parts = append(parts, r)
			} else {
				r.Lack = lack
				serve(r, share)
			}
		}
		for _, r := range parts {
			share := 0.0
			share, r.Lack = y.share(&r, pile)
			serve(r, share)
		}
		rest = rest[group:]
	}
	p.Routes = served
	if p.Short = p.Demanded - p.Loaded; p.Short < 1e-12*p.Demanded {
		p.Short = 0 // rounding
	}
	p.ReserveGap = max(0, y.r.Reserve-y.usable())
}

// share is the part of a route that can be served now, and what it lacks beyond that.
func (y *stormYard) share(r *RoutePlan, pile quantity.Mass) (float64, Lack) {
	const (
		rounding = 1e-12
		// Brines of two strengths shrink a little in one tank: that loss is no
		// shortage.
		shrinkage = 1e-4
	)
	share, lack := least(
		y.byTruck(r),
		bound{Lack{Why: NoDrySalt}, part(pile, r.Route.Salt()), rounding},
		r.byBought(0),
		bound{Lack{Why: BrineEnds}, part(y.usable(), r.brine), shrinkage},
	)
	if share < rounding {
		share = 0
	}
	return share, lack
}

// Balance is the brine that the yard began with, made, loaded and has left:
// Start + Made = Loaded + Left.
type Balance struct{ Start, Made, Loaded, Left balance.Masses }

func (y *stormYard) balance() Balance {
	b := Balance{Start: y.start, Made: y.made, Loaded: y.loaded}
	for _, t := range y.tanks {
		b.Left = b.Left.Plus(t.Masses())
	}
	return b
}
