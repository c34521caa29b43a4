package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// demand works out what each route takes, and of which liquids.
func (y *stormYard) demand(p *Plan) error {
	for _, r := range y.r.Routes {
		route := RoutePlan{Route: r, Demanded: r.Volume(), LaneLength: r.Length() * quantity.Length(max(1, r.Passes))}
		var err error
		if route.brine, route.other, route.which, err = y.parts(r.Liquid, route.Demanded); err != nil {
			return err
		}
		liquid, err := y.liquid(r.Liquid)
		if err != nil {
			return err
		}
		if route.density, err = liquid.Density(y.r.Temperature); err != nil {
			return fault.Input(fault.FieldRoutes, "more salt dissolved in %v than the model can reckon with; allowed: %v in all",
				fault.Word(r.Liquid), quantity.Strength(solution.MaxSolute))
		}
		if route.other > 0 {
			p.want(route.which, route.other, y.others[route.which].left)
		}
		p.Demanded += route.Demanded
		p.Routes = append(p.Routes, route)
	}
	return nil
}

// want adds to what the routes take of a liquid.
func (p *Plan) want(name string, v, onHand quantity.Volume) {
	for i := range p.Liquids {
		if p.Liquids[i].Name == name {
			p.Liquids[i].Wanted += v
			return
		}
	}
	p.Liquids = append(p.Liquids, LiquidNeed{Name: name, Wanted: v, OnHand: onHand})
}

// order sorts the routes: by priority, and among equals those first that take least of
// what is scarce for a lane, so that most lanes are served.
func (y *stormYard) order(p *Plan, runs []MixerRun) {
	wanted := quantity.Volume(0)
	for _, r := range p.Routes {
		wanted += r.brine
	}
	have := max(0, y.usable()-y.r.Reserve) + y.produce(runs, wanted+y.r.Reserve, 0).Made
	scarcity := map[string]float64{balance.BrineName: excess(wanted, have)}
	for _, l := range p.Liquids {
		scarcity[l.Name] = excess(l.Wanted, l.OnHand)
	}
	cost := func(r *RoutePlan) float64 {
		c := float64(r.brine)*scarcity[balance.BrineName] + float64(r.other)*scarcity[r.which]
		if c == 0 {
			c = 1e-9 * float64(r.Demanded) // nothing is scarce
		}
		return c / float64(r.LaneLength)
	}
	slices.SortStableFunc(p.Routes, func(a, b RoutePlan) int {
		return cmp.Or(cmp.Compare(orLast(a.Route.Priority), orLast(b.Route.Priority)), cmp.Compare(cost(&a), cost(&b)))
	})
}

// excess weighs a liquid of which more is wanted than there is; 0 for one that
// suffices.
func excess(wanted, have quantity.Volume) float64 {
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

// claims goes through the routes in order and notes what each can have at best of what
// is not made here: trucks, bought liquids, and the pile, from which both brine and
// pre-wetting draw. It returns the brine that is worth making, with the reserve, and the
// salt to be set aside.
func (y *stormYard) claims(p *Plan, runs []MixerRun) (need quantity.Volume, drySalt quantity.Mass) {
	left := map[string]quantity.Volume{}
	for name, o := range y.others {
		left[name] = o.left
	}
	lacking, stock := quantity.Volume(0), y.usable()
	for i := range p.Routes {
		r := &p.Routes[i]
		share := 1.0
		if len(y.r.Trucks) > 0 && !y.carried(r) {
			share = 0
		}
		if r.other > 0 {
			share = min(share, float64(left[r.which]/r.other))
		}
		if dry := r.Route.Salt(); dry > 0 {
			// Whole batches come first: they serve the routes before this one too.
			rest := y.r.Plant.Pile - drySalt - saltOf(lacking+max(0, r.brine*quantity.Volume(share)-stock), runs)
			share = min(share, max(0, float64(rest/dry)))
			drySalt += dry * quantity.Mass(share)
		}
		brine := r.brine * quantity.Volume(share)
		left[r.which] -= r.other * quantity.Volume(share)
		lacking += max(0, brine-stock)
		stock = max(0, stock-brine)
		need += brine
	}
	return need + y.r.Reserve, drySalt
}

// saltOf is the least salt, as delivered, for whole batches of so much brine in one of
// the mixing tanks.
func saltOf(v quantity.Volume, runs []MixerRun) quantity.Mass {
	least := quantity.Mass(math.Inf(1))
	for _, run := range runs {
		least = min(least, run.Salt*quantity.Mass(math.Ceil(float64(v/run.Mixer.PumpOff)-1e-9)))
	}
	if len(runs) == 0 {
		return 0
	}
	return least
}

// allocate serves the routes in order with what there is, the last one in part.
func (y *stormYard) allocate(p *Plan) {
	pile := y.r.Plant.Pile - p.Production.Salt
	for i := range p.Routes {
		r := &p.Routes[i]
		share := y.share(r, pile)
		r.Served = r.Demanded * quantity.Volume(share)
		dry := r.Route.Salt() * quantity.Mass(share)
		pile -= dry
		p.DrySalt += dry
		y.draw(r.brine * quantity.Volume(share))
		if r.other > 0 {
			taken := min(r.other*quantity.Volume(share), y.others[r.which].left)
			y.others[r.which].left -= taken
			y.extra[r.which] += taken
		}
		p.Loaded += r.Served
	}
	if p.Short = p.Demanded - p.Loaded; p.Short < 1e-12*p.Demanded {
		p.Short = 0 // rounding
	}
	p.ReserveGap = max(0, y.r.Reserve-y.usable())
}

// share is the part of a route that can be served now; it notes what is short.
func (y *stormYard) share(r *RoutePlan, pile quantity.Mass) float64 {
	// Brines of two strengths shrink a little in one tank: what that takes is no
	// shortage.
	const shrinkage = 1e-4
	share := 1.0
	lower := func(to float64, cause string) {
		if to < share {
			share, r.Cause = max(0, to), cause
		}
	}
	if len(y.r.Trucks) > 0 && !y.carried(r) {
		lower(0, TruckName)
	}
	if dry := r.Route.Salt(); dry > pile*(1+1e-12) {
		lower(float64(pile/dry), DrySaltName)
	}
	if r.other > 0 && y.others[r.which].left < r.other {
		lower(float64(y.others[r.which].left/r.other), r.which)
	}
	if have := y.usable(); r.brine > 0 && have < r.brine*quantity.Volume(share)*(1-shrinkage) {
		lower(float64(have/r.brine), balance.BrineName)
	}
	if share < 1e-12 {
		share = 0 // rounding
	}
	return share
}

// Balance is the brine that the yard began with, made, loaded and has left:
// Start + Made = Loaded + Left.
type Balance struct{ Start, Made, Loaded, Left Ledger }

func (y *stormYard) balance() Balance {
	b := Balance{Start: y.start, Made: y.made, Loaded: y.loaded}
	for _, t := range y.tanks {
		b.Left.add(t.brine, 1)
	}
	return b
}
