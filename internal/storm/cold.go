package storm

import (
	"sort"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

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
func (y *stormYard) cold(p *Plan) error {
	if err := y.overnight(p); err != nil {
		return err
	}
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
	if seen[balance.BrineName] && y.r.Low < quantity.Celsius(0) && y.r.Low >= coldestPavement {
		return y.better(p)
	}
	return nil
}

// overnight judges what stands in store, each tank at its own strength.
func (y *stormYard) overnight(p *Plan) error {
	for i := range p.Supply {
		line := &p.Supply[i]
		l, err := y.liquid(line.Liquid)
		if err != nil {
			return err
		}
		if line.Strength > 0 {
			l = balance.SaltBrine(line.Strength)
		}
		cold, err := l.Dissolves()
		if err != nil {
			return fault.Relabel(err, fault.FieldRoutes)
		}
		line.First = cold.First()
		line.Clear = clearAt(y.r.Low, line.First)
	}
	return nil
}

// clearAt is false where a solid has formed, or may have: where none is found, the
// onset's temperature is how far down it was looked for.
func clearAt(low quantity.Temperature, first solution.Onset) bool {
	return float64(low) > first.Temperature
}

// liquid is what a route's liquid is made of.
func (y *stormYard) liquid(name string) (balance.Liquid, error) {
	if name == balance.BrineName {
		return balance.SaltBrine(y.r.Band.Target), nil
	}
	if b, ok := y.blends[name]; ok {
		mixed, err := brine.NewBlend(y.blendRequest(b, 1))
		return mixed.Liquid, err
	}
	return y.others[name].liquid, nil
}

func (y *stormYard) coldLine(name string, l balance.Liquid) (ColdLine, error) {
	cold, err := l.Cold()
	if err != nil {
		return ColdLine{}, err
	}
	first := cold.First()
	line := ColdLine{
		Liquid: name, First: first, Practice: y.r.Low >= coldestPavement,
		Clear: clearAt(y.r.Low, first),
	}
	if y.r.Low >= quantity.Celsius(0) || len(l.Products) > 0 {
		return line, nil
	}
	line.PerVolume, line.Diluted, err = y.melts(l)
	return line, err
}

// melts is the ice that a volume of a liquid melts at the low.
func (y *stormYard) melts(l balance.Liquid) (quantity.Density, quantity.Strength, error) {
	rho, err := l.Density(y.r.Temperature)
	if err != nil {
		return 0, 0, err
	}
	melted, err := solution.Anchored().Melting(l.Composition, float64(y.r.Low))
	return quantity.Density(melted * float64(rho)), quantity.Strength(l.Composition.Solute() / (1 + melted)), err
}

// better tries a fifth of each of the yard's chlorides in brine.
func (y *stormYard) better(p *Plan) error {
	const share, worth = 0.2, 1.1
	before, _, err := y.melts(balance.SaltBrine(y.r.Band.Target))
	if err != nil {
		return err
	}
	names := make([]string, 0, len(y.others))
	for n := range y.others {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		if l := y.others[n].liquid; y.others[n].left <= 0 || len(l.Products) > 0 || l.Composition.CaCl2+l.Composition.MgCl2 == 0 {
			continue
		}
		b, err := brine.NewBlend(y.blendRequest(yard.Blend{Additive: n, Share: share}, 1))
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
