package storm

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/quantity"
)

// stocks is what is left to give while routes are allotted theirs.
type stocks struct {
	brine  quantity.Volume // that stands in store
	pile   quantity.Mass
	rate   float64 // kg of salt in a m3 of brine that is made; infinite where none can be made
	bought map[*bought]quantity.Volume
}

// allot gives the routes what there is, however long it takes: those of a priority that can have all come before one that
// gets a part, in the order of the file. The plan's routes are then in the order in which they are served.
func (y *stormYard) allot(p *Plan, runs []MixerRun) {
	s := stocks{brine: y.usable(), pile: y.r.pile(), rate: saltRate(runs), bought: map[*bought]quantity.Volume{}}
	for _, run := range runs {
		if run.Fix != nil {
			s.brine += run.Fix.Usable
			s.pile = max(0, s.pile-run.Salt)
		}
	}
	for _, o := range y.others {
		s.bought[o] = o.left
	}
	slices.SortStableFunc(p.Routes, func(a, b RoutePlan) int {
		return cmp.Compare(orLast(a.Route.Priority), orLast(b.Route.Priority))
	})
	given := make([]RoutePlan, 0, len(p.Routes))
	for rest := p.Routes; len(rest) > 0; {
		group := slices.IndexFunc(rest, func(r RoutePlan) bool { return r.Route.Priority != rest[0].Route.Priority })
		if group < 0 {
			group = len(rest)
		}
		var parts []RoutePlan
		for _, r := range rest[:group] {
			if share, _ := y.share(&r, &s); share < 1 {
				parts = append(parts, r)
			} else {
				given = append(given, s.give(r, share))
			}
		}
		for _, r := range parts {
			share := 0.0
			share, r.Lack = y.share(&r, &s)
			given = append(given, s.give(r, share))
		}
		rest = rest[group:]
	}
	p.Routes = given
}

// orLast puts what has no priority behind all that have one.
func orLast(priority int) int {
	if priority == 0 {
		return math.MaxInt
	}
	return priority
}

// give takes a part of a route from what is left.
func (s *stocks) give(r RoutePlan, share float64) RoutePlan {
	r.Given = r.Demanded * quantity.Volume(share)
	brine := r.brine * quantity.Volume(share)
	s.pile = max(0, s.pile-r.Route.Salt()*quantity.Mass(share))
	if made := max(0, brine-s.brine); made > 0 && !math.IsInf(s.rate, 1) {
		s.pile = max(0, s.pile-quantity.Mass(s.rate*float64(made)))
	}
	s.brine = max(0, s.brine-brine)
	if r.bought != nil {
		s.bought[r.bought] = max(0, s.bought[r.bought]-r.other*quantity.Volume(share))
	}
	return r
}

// share is the part of a route that can be had, and what it lacks beyond that: the tightest of trucks, liquids and the
// pile, the first of equals. A part that falls short by rounding is the whole.
func (y *stormYard) share(r *RoutePlan, s *stocks) (share float64, lack Lack) {
	share = 1
	tighten := func(part float64, l Lack) {
		if part < share*(1-1e-9) {
			share, lack = max(0, part), l
		}
	}
	if len(y.r.Trucks) > 0 && !r.carried() {
		tighten(0, Lack{Why: NoTruck})
	}
	tighten(part(s.pile, r.Route.Salt()), Lack{Why: NoDrySalt})
	if r.bought != nil {
		tighten(part(s.bought[r.bought], r.other), Lack{LiquidEnds, r.bought.name})
	}
	lacksBrine := Lack{Why: BrineEnds}
	if r.Route.Salt() > 0 && !math.IsInf(s.rate, 1) {
		lacksBrine.Why = NoDrySalt // its brine takes of the same pile
	}
	tighten(s.brineFor(r), lacksBrine)
	if share < 1e-12 {
		share = 0
	}
	return share, lack
}

// brineFor is the part of a route for which there is brine: that in store, and what the pile makes beyond the dry salt.
func (s *stocks) brineFor(r *RoutePlan) float64 {
	if r.brine == 0 || math.IsInf(s.rate, 1) {
		return part(s.brine, r.brine)
	}
	if stored := part(s.brine, r.brine); stored >= 1 {
		return stored
	}
	// pile = dry x share + rate x (brine x share - store)
	return (float64(s.pile) + s.rate*float64(s.brine)) / (float64(r.Route.Salt()) + s.rate*float64(r.brine))
}

// part is how much of what is wanted there is; infinite where nothing is wanted.
func part[Q ~float64](have, wanted Q) float64 {
	if wanted == 0 {
		return math.Inf(1)
	}
	return float64(have / wanted)
}
