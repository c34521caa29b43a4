package brine

import (
	"cmp"
	"math"
	"slices"

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
	Meets     bool // ice and salt come at the same temperature: the lowest point at which all is liquid
	Saturated bool // not all dissolves in the warm
}

// curve goes up from fresh water past the liquid itself to where salt falls out in the
// warm, or to the strength that the model is checked to.
func (r FreezeRequest) curve() ([]CurvePoint, error) {
	own := r.Liquid.Composition.Solute()
	if err := cmp.Or(
		r.chloridesAlone(fault.FieldLiquid),
		fault.If(own == 0, fault.FieldLiquid, "fresh water has no freezing diagram; allowed: with a salt"),
	); err != nil {
		return nil, err
	}
	var points []CurvePoint
	for _, total := range diagramStrengths(own) {
		p, err := pointAt(r.Liquid, total)
		if err != nil {
			return nil, err
		}
		p.IsLiquid = total == own
		if n := len(points); n > 0 && iceFirst(points[n-1]) && saltFirst(p) {
			meets, err := meeting(r.Liquid, points[n-1], p)
			if err != nil {
				return nil, err
			}
			points = append(points, meets)
		}
		points = append(points, p)
		if total > own && p.Cold.SaltOr(solution.Floor) > solution.FitCeiling {
			break
		}
	}
	return points, nil
}

func iceFirst(p CurvePoint) bool { return p.Cold.Ice.Found && p.Cold.First().Solid == solution.Ice }

func saltFirst(p CurvePoint) bool { return p.Cold.Salt.Found && p.Cold.First().Solid != solution.Ice }

// meeting halves the interval between a liquid that ice forms in first and a stronger one that drops
// salt first, to where both come together.
func meeting(l balance.Liquid, weak, strong CurvePoint) (CurvePoint, error) {
	const enough = 1e-6
	for strong.Strength-weak.Strength > enough {
		p, err := pointAt(l, float64(weak.Strength+strong.Strength)/2)
		switch {
		case err != nil:
			return CurvePoint{}, err
		case saltFirst(p):
			strong = p
		default:
			weak = p
		}
	}
	weak.Meets, weak.IsLiquid = true, false
	return weak, nil
}

// diagramStrengths are whole percents, in rising order, and a liquid's own strength.
func diagramStrengths(own float64) []float64 {
	const step, most, same = 0.01, solution.CheckedTo, 1e-9
	all := []float64{own}
	for i := 0; float64(i)*step <= most+same; i++ {
		if w := float64(i) * step; math.Abs(w-own) > same {
			all = append(all, w)
		}
	}
	slices.Sort(all)
	return all
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
