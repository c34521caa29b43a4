package storm

import (
	"cmp"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// ColdLine is what the storm's low does to a liquid.
type ColdLine struct {
	Liquid string
	First  solution.Onset
	// Clear is true if nothing forms in it down to the low, as in a tank outside.
	Clear bool
	// PerVolume is the ice that a volume melts at the low, and Diluted the strength at
	// which it refreezes; both 0 where it is not known or not needed.
	PerVolume quantity.Density
	Diluted   quantity.Strength
}

// ColdestPavement is the lowest temperature of the pavement at which liquids are used, 15 F.
// Sources: MN field handbook (salt not usually cost-efficient below 15 F), MaineDOT table A
// (plow only below 15 F), Town of Bedford (brine applied from 15 to 32 F).
func ColdestPavement() quantity.Temperature { return quantity.Fahrenheit(15) }

// BetterBlend is brine with one of the yard's liquids that melts more at the low.
type BetterBlend struct {
	Additive          string
	Share             quantity.Fraction
	PerVolume, Before quantity.Density
	// DropsSalt is true if salt falls out of the blend in a tank at the low, from SaltOut on.
	DropsSalt bool
	SaltOut   solution.Onset
}

// cold judges each liquid that is used, and looks for a better one.
func (y *stormYard) cold(p *Plan) error {
	if err := y.overnight(p); err != nil {
		return err
	}
	if err := y.meets(p); err != nil {
		return err
	}
	p.Practice = y.r.Low >= ColdestPavement()
	for _, r := range p.Routes {
		if slices.ContainsFunc(p.Cold, func(l ColdLine) bool { return l.Liquid == r.Route.Liquid }) {
			continue
		}
		line, err := y.coldLine(r.Route.Liquid, r.liquid)
		if err != nil {
			return err
		}
		p.Cold = append(p.Cold, line)
	}
	usesBrine := slices.ContainsFunc(p.Cold, func(l ColdLine) bool { return l.Liquid == balance.BrineName })
	if usesBrine && y.freezing() && p.Practice {
		return y.better(p)
	}
	return nil
}

// freezing tells whether there is ice to melt.
func (y *stormYard) freezing() bool { return y.r.Low < quantity.Celsius(0) }

// overnight judges what stands in store, brine in each tank at its own strength.
func (y *stormYard) overnight(p *Plan) error {
	for i := range p.Supply {
		line := &p.Supply[i]
		l := balance.SaltBrine(cmp.Or(line.Strength, y.r.Band.Target))
		if o := y.bought(line.Liquid); o != nil {
			l = o.liquid
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

// clearAt tells whether nothing has formed at the low. An onset that was not found has
// the temperature where the search ended: below it nothing is known, and nothing is clear.
func clearAt(low quantity.Temperature, first solution.Onset) bool {
	return float64(low) > first.Temperature
}

func (y *stormYard) coldLine(name string, l balance.Liquid) (ColdLine, error) {
	cold, err := l.Cold()
	if err != nil {
		return ColdLine{}, err
	}
	first := cold.First()
	line := ColdLine{Liquid: name, First: first, Clear: clearAt(y.r.Low, first)}
	if !y.freezing() || len(l.Products) > 0 {
		return line, nil
	}
	line.PerVolume, line.Diluted, err = y.melts(l, y.r.Low)
	return line, err
}

// melts is the ice that a volume of a liquid melts at a low.
func (y *stormYard) melts(l balance.Liquid, low quantity.Temperature) (quantity.Density, quantity.Strength, error) {
	rho, err := l.Density(y.r.Temperature)
	if err != nil {
		return 0, 0, err
	}
	melted, err := solution.Anchored().Melting(l.Composition, float64(low))
	return quantity.Density(melted * float64(rho)), quantity.Strength(l.Composition.Solute() / (1 + melted)), err
}

// better tries a fifth of each of the yard's chlorides in brine.
func (y *stormYard) better(p *Plan) error {
	const share, worth = 0.2, 1.1
	before, _, err := y.melts(balance.SaltBrine(y.r.Band.Target), y.r.Low)
	if err != nil {
		return err
	}
	for _, o := range y.others {
		if o.left <= 0 || len(o.liquid.Products) > 0 || o.liquid.Composition.CaCl2+o.liquid.Composition.MgCl2 == 0 {
			continue
		}
		b, err := y.blend(o, share, 1)
		if err != nil {
			continue // it does not stay dissolved with brine
		}
		melted, _, err := y.melts(b.Liquid, y.r.Low)
		if err != nil {
			return err
		}
		if melted > worth*before && (p.Better == nil || melted > p.Better.PerVolume) {
			p.Better = &BetterBlend{
				Additive: o.name, Share: share, PerVolume: melted, Before: before,
				DropsSalt: b.Cold.Salt.Found && b.Cold.Salt.Temperature > float64(y.r.Low), SaltOut: b.Cold.Salt,
			}
		}
	}
	return nil
}
