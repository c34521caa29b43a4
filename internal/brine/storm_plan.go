package brine

import (
	"math"
	"sort"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// demand puts the routes in order, and returns the salt brine that they take with
// the reserve.
func (y *stormYard) demand(p *StormPlan) (quantity.Volume, error) {
	need := y.r.Reserve
	for _, r := range y.r.Routes {
		v := r.Volume()
		brine, other, which, err := y.parts(r.Liquid, v)
		if err != nil {
			return 0, err
		}
		need += brine
		if other > 0 {
			p.want(which, other, y.others[which].left)
		}
		p.Demanded += v
		p.DrySalt += r.Salt()
		p.Routes = append(p.Routes, RoutePlan{Route: r, Demanded: v, LaneLength: r.Length() * quantity.Length(max(1, r.Passes))})
	}
	// By priority, then those that take least for a lane: so most lanes are served.
	sort.SliceStable(p.Routes, func(i, j int) bool {
		a, b := p.Routes[i], p.Routes[j]
		if pa, pb := orLast(a.Route.Priority), orLast(b.Route.Priority); pa != pb {
			return pa < pb
		}
		return float64(a.Demanded)/float64(a.LaneLength) < float64(b.Demanded)/float64(b.LaneLength)
	})
	return need, nil
}

// want adds to what the routes take of a liquid.
func (p *StormPlan) want(name string, v, onHand quantity.Volume) {
	for i := range p.Liquids {
		if p.Liquids[i].Name == name {
			p.Liquids[i].Wanted += v
			return
		}
	}
	p.Liquids = append(p.Liquids, LiquidNeed{Name: name, Wanted: v, OnHand: onHand})
}

// orLast puts what has no priority behind all that have one.
func orLast(priority int) int {
	if priority == 0 {
		return math.MaxInt
	}
	return priority
}

// allocate serves the routes in order with what there is, the last one in part. Dry
// salt for pre-wetting was set aside before the batches; it ends only with the pile.
func (y *stormYard) allocate(p *StormPlan) {
	pile := y.r.Plant.Pile
	for i := range p.Routes {
		route := &p.Routes[i]
		brine, other, which, err := y.parts(route.Route.Liquid, route.Demanded)
		if err != nil || route.Demanded == 0 {
			continue // an error would have come up in demand
		}
		// Brines of two strengths shrink a little in one tank: what that takes is no
		// shortage.
		const shrinkage = 1e-4
		share := 1.0
		if dry := route.Route.Salt(); dry > pile {
			share, route.Cause = float64(pile/dry), DrySaltName
		}
		if have := y.usable(); brine > 0 && have < brine*quantity.Volume(share)*(1-shrinkage) {
			share, route.Cause = float64(have/brine), BrineName
		}
		if other > 0 && y.others[which].left < other*quantity.Volume(share) {
			share, route.Cause = float64(y.others[which].left/other), which
		}
		if share < 1e-12 {
			share = 0 // rounding
		}
		route.Served = route.Demanded * quantity.Volume(share)
		pile -= route.Route.Salt() * quantity.Mass(share)
		y.drySalt += route.Route.Salt() * quantity.Mass(share)
		y.draw(brine * quantity.Volume(share))
		if other > 0 {
			taken := min(other*quantity.Volume(share), y.others[which].left)
			y.others[which].left -= taken
			y.extra[which] += taken
		}
		p.Loaded += route.Served
	}
	if p.Short = p.Demanded - p.Loaded; p.Short < 1e-12*p.Demanded {
		p.Short = 0 // rounding
	}
	p.ReserveGap = max(0, y.r.Reserve-y.usable())
}

// StormBalance is the brine that the yard began with, made, loaded and has left:
// Start + Made = Loaded + Left.
type StormBalance struct{ Start, Made, Loaded, Left Ledger }

func (y *stormYard) balance() StormBalance {
	b := StormBalance{Start: y.start, Made: y.made, Loaded: y.loaded}
	for _, t := range y.tanks {
		b.Left.add(t.brine, 1)
	}
	return b
}

// ColdLine is what the storm's low does to a liquid.
type ColdLine struct {
	Liquid string
	First  solution.Onset
	// Practice is false where the pavement is colder than liquids are used for.
	Practice bool
	// Clear is false when ice or salt forms in it at the low, as in a tank outside.
	Clear bool
	// PerVolume is the ice that a volume melts at the low, and Diluted the strength at
	// which it refreezes; both 0 where it is not known or not needed.
	PerVolume quantity.Density
	Diluted   quantity.Strength
}

// coldestPavement is below which liquids are not used. Sources: MN field handbook
// (salt not usually cost-efficient below 15 F), MaineDOT table A (plow only below 15
// F), Town of Bedford (brine applied from 15 to 32 F).
var coldestPavement = quantity.Fahrenheit(15)

// BetterBlend is brine with one of the yard's liquids that melts more at the low.
type BetterBlend struct {
	Additive          string
	Share             quantity.Fraction
	PerVolume, Before quantity.Density
	SaltOut           solution.Onset
}

// cold judges each liquid that is used, and looks for a better one.
func (y *stormYard) cold(p *StormPlan) error {
	seen := map[string]bool{}
	for _, r := range p.Routes {
		if name := r.Route.Liquid; !seen[name] {
			seen[name] = true
			l, err := y.liquid(name)
			if err != nil {
				return err
			}
			line, err := y.coldLine(name, l)
			if err != nil {
				return err
			}
			p.Cold = append(p.Cold, line)
		}
	}
	if seen[BrineName] && y.r.Low < quantity.Celsius(0) {
		return y.better(p)
	}
	return nil
}

// liquid is what a route's liquid is made of.
func (y *stormYard) liquid(name string) (Liquid, error) {
	if name == BrineName {
		return SaltBrine(y.r.Band.Target), nil
	}
	if b, ok := y.blends[name]; ok {
		mixed, err := NewBlend(y.blendRequest(b, 1))
		return mixed.Liquid, err
	}
	return y.others[name].liquid, nil
}

func (y *stormYard) coldLine(name string, l Liquid) (ColdLine, error) {
	cold, err := l.Cold()
	if err != nil {
		return ColdLine{}, err
	}
	first := cold.First()
	line := ColdLine{
		Liquid: name, First: first, Practice: y.r.Low >= coldestPavement,
		Clear: !first.Found || float64(y.r.Low) > first.Temperature,
	}
	if y.r.Low >= quantity.Celsius(-0.001) || len(l.Products) > 0 {
		return line, nil
	}
	line.PerVolume, line.Diluted, err = y.melts(l)
	return line, err
}

// melts is the ice that a volume of a liquid melts at the low.
func (y *stormYard) melts(l Liquid) (quantity.Density, quantity.Strength, error) {
	rho, err := l.Density(y.r.Temperature)
	if err != nil {
		return 0, 0, err
	}
	melted, err := solution.Anchored().Melting(l.Composition, float64(y.r.Low))
	return quantity.Density(melted * float64(rho)), quantity.Strength(l.Composition.Solute() / (1 + melted)), err
}

// better tries a fifth of each of the yard's chlorides in brine.
func (y *stormYard) better(p *StormPlan) error {
	const share, worth = 0.2, 1.1
	before, _, err := y.melts(SaltBrine(y.r.Band.Target))
	if err != nil {
		return err
	}
	names := make([]string, 0, len(y.others))
	for n := range y.others {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		if l := y.others[n].liquid; len(l.Products) > 0 || l.Composition.CaCl2+l.Composition.MgCl2 == 0 {
			continue
		}
		b, err := NewBlend(y.blendRequest(StormBlend{Additive: n, Share: share}, 1))
		if err != nil {
			continue // it does not stay dissolved with brine
		}
		melted, _, err := y.melts(b.Liquid)
		if err != nil {
			return err
		}
		if melted > worth*before && (p.Better == nil || melted > p.Better.PerVolume) {
			p.Better = &BetterBlend{Additive: n, Share: share, PerVolume: melted, Before: before, SaltOut: b.Cold.Salt}
		}
	}
	return nil
}
