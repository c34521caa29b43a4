package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// CurvePoint is a point of the freezing diagram: a total strength at the liquid's
// own ratio of salts.
type CurvePoint struct {
	Strength  quantity.Strength
	Cold      balance.Cold
	IsLiquid  bool // the liquid asked about
	Saturated bool // not all dissolves in the warm
}

// curveStep is between the strengths of the diagram.
const curveStep = 0.01

// curve goes up from fresh water, in whole percents, past the liquid itself and to
// where salt falls out in the warm, or to the strength that the model is checked to.
func (r FreezeRequest) curve() ([]CurvePoint, error) {
	own := r.Liquid.Composition.Solute()
	if err := fault.First(
		r.chloridesAlone(fault.FieldLiquid),
		fault.When(own == 0, fault.FieldLiquid, "fresh water has no freezing diagram; allowed: with a salt"),
	); err != nil {
		return nil, err
	}
	var points []CurvePoint
	add := func(total float64, isLiquid bool) (bool, error) {
		p, err := pointAt(r.Liquid, total)
		p.IsLiquid = isLiquid
		points = append(points, p)
		return p.Cold.Salt.Found && p.Cold.Salt.Temperature > solution.FitCeiling, err
	}
	const most = solution.CheckedTo
	placed := false
	for i := 0; float64(i)*curveStep <= most+1e-9; i++ {
		total := float64(i) * curveStep
		if !placed && own <= total+1e-9 {
			placed = true
			if _, err := add(own, true); err != nil {
				return nil, err
			}
			if own > total-1e-9 {
				continue
			}
		}
		end, err := add(total, false)
		if err != nil || end && placed {
			return points, err
		}
	}
	if !placed {
		_, err := add(own, true)
		return points, err
	}
	return points, nil
}

// pointAt is the point of a liquid's salts at another total strength.
func pointAt(l balance.Liquid, total float64) (CurvePoint, error) {
	c := l.Composition
	scale := total / c.Solute()
	f, err := solution.Anchored().Freezing(solution.Composition{
		NaCl: scale * c.NaCl, KCl: scale * c.KCl, CaCl2: scale * c.CaCl2, MgCl2: scale * c.MgCl2,
	})
	return CurvePoint{Strength: quantity.Strength(total), Cold: balance.Cold{Freezing: f}, Saturated: f.Salt.Saturated}, err
}
