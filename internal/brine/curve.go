package brine

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// CurvePoint is a point of the freezing diagram: a total strength at the liquid's
// own ratio of salts.
type CurvePoint struct {
	Strength  quantity.Strength
	Cold      Cold
	IsLiquid  bool // the liquid asked about
	Saturated bool // not all dissolves in the warm
}

// curveStep is between the strengths of the diagram.
const curveStep = 0.01

// curve goes up from fresh water, in whole percents, past the liquid itself and to
// where salt falls out in the warm, or to the strength that the model is checked to.
func (r FreezeRequest) curve() ([]CurvePoint, error) {
	if err := r.chloridesAlone(FieldLiquid); err != nil {
		return nil, err
	}
	own := r.Liquid.Composition.Solute()
	if own == 0 {
		return nil, bad(FieldLiquid, "fresh water has no freezing diagram; allowed: with a salt")
	}
	var points []CurvePoint
	add := func(total float64, isLiquid bool) (bool, error) {
		scale := total / own
		c := r.Liquid.Composition
		f, err := solution.Anchored().Freezing(solution.Composition{
			NaCl: scale * c.NaCl, KCl: scale * c.KCl, CaCl2: scale * c.CaCl2, MgCl2: scale * c.MgCl2,
		})
		if err != nil {
			return false, err
		}
		points = append(points, CurvePoint{quantity.Strength(total), Cold{Freezing: f}, isLiquid, f.Salt.Saturated})
		return f.Salt.Found && float64(f.Salt.Temperature) > solution.FitCeiling, nil
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
