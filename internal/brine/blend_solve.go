package brine

import (
	"fmt"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/root"
	"brineyard/internal/solution"
)

// Solved is the answer to what a blend is to do in the cold.
type Solved struct {
	Request BlendRequest // with the shares and the base strength that were found
	Blend   Blend
	// Share is that of the last part, of the whole; BaseStrength that of the
	// first part.
	Share        quantity.Fraction
	BaseStrength quantity.Strength
	// AnyBase is set when even saturated base keeps clear.
	AnyBase bool
}

// ShareForIce returns the blend whose last part is just large enough for an ice
// point, the other parts keeping their ratio. Errors: InputError when no share
// reaches it.
func ShareForIce(r BlendRequest, ice quantity.Temperature) (Solved, error) {
	if err := r.check(); err != nil {
		return Solved{}, err
	}
	if err := r.sharesToSolve(); err != nil {
		return Solved{}, err
	}
	off := func(x float64) (float64, error) {
		m, err := r.withShare(x).mix()
		return m.cold.IceOr(solution.Floor) - float64(ice), err
	}
	x, err := firstCrossing(off)
	if err != nil {
		return Solved{}, err
	}
	if math.IsNaN(x) {
		return Solved{}, r.unreachable(ice)
	}
	return r.withShare(x).solved(x)
}

// sharesToSolve refuses a blend without shares to change.
func (r BlendRequest) sharesToSolve() error {
	rest := 0.0
	for _, p := range r.Parts[:len(r.Parts)-1] {
		rest += p.Amount
	}
	if len(r.Parts) < 2 || rest == 0 {
		return fault.Input(fault.FieldIceAt, "one liquid has no shares; allowed: with two parts or more")
	}
	return nil
}

// unreachable tells what ice points the shares do reach.
func (r BlendRequest) unreachable(ice quantity.Temperature) error {
	none, err := r.withShare(0).mix()
	if err != nil {
		return err
	}
	all, err := r.withShare(1).mix()
	if err != nil {
		return err
	}
	return fault.Input(fault.FieldIceAt, "no share of the last part has its ice point there; allowed: between %v (none of it) and %v (nothing else)",
		quantity.Temperature(none.cold.IceOr(solution.Floor)), quantity.Temperature(all.cold.IceOr(solution.Floor)))
}

// withShare gives the last part a share x of the whole.
func (r BlendRequest) withShare(x float64) BlendRequest {
	parts := append([]Part(nil), r.Parts...)
	last := len(parts) - 1
	rest := 0.0
	for _, p := range parts[:last] {
		rest += p.Amount
	}
	for i := range parts[:last] {
		parts[i].Amount *= (1 - x) / rest
	}
	parts[last].Amount = x
	r.Parts = parts
	return r
}

// withBase gives the first part, plain brine, a strength.
func (r BlendRequest) withBase(s quantity.Strength) BlendRequest {
	parts := append([]Part(nil), r.Parts...)
	parts[0].Liquid = balance.SaltBrine(s)
	r.Parts = parts
	return r
}

// solved blends what was found.
func (r BlendRequest) solved(share float64) (Solved, error) {
	b, err := NewBlend(r)
	if input, ok := err.(*fault.InputError); ok && input.Field == fault.FieldParts {
		return Solved{}, fault.Input(fault.FieldIceAt, "that takes %v of the last part, and not all of such a blend stays dissolved at %v; allowed: a warmer ice point",
			quantity.Fraction(share), r.Temperature)
	}
	base, _ := r.Parts[0].Liquid.Strength()
	return Solved{Request: r, Blend: b, Share: quantity.Fraction(share), BaseStrength: base}, err
}

// KeepClear returns the blend with the strongest base from which no salt falls out
// down to a temperature, at the given shares. Errors: InputError when the base is
// not plain brine, a product is in it, or salt falls out of the other parts alone.
func KeepClear(r BlendRequest, clear quantity.Temperature) (Solved, error) {
	if err := r.check(); err != nil {
		return Solved{}, err
	}
	s, anyBase, err := r.strongestBase(clear)
	if err != nil {
		return Solved{}, err
	}
	out, err := r.withBase(s).solved(r.lastShare())
	if err != nil {
		return out, err
	}
	out.AnyBase = anyBase
	if ice := out.Blend.Cold.IceOr(solution.Floor); ice > float64(clear)+1e-6 {
		return Solved{}, r.iceFirst(clear)
	}
	return out, nil
}

// iceFirst refuses a temperature at which ice has formed before, and tells how far
// down it can be clear: where ice and salt would come together.
func (r BlendRequest) iceFirst(clear quantity.Temperature) error {
	full, err := balance.Saturation(r.Temperature)
	if err != nil {
		return err
	}
	lead := func(s float64) (float64, error) {
		m, err := r.withBase(quantity.Strength(s)).mix()
		salt := solution.Floor
		if m.cold.Salt.Found {
			salt = m.cold.Salt.Temperature
		}
		return salt - m.cold.IceOr(solution.Floor), err
	}
	low, err := lead(0)
	if err != nil {
		return err
	}
	high, err := lead(float64(full))
	if err != nil {
		return err
	}
	s, coldest := float64(full), 0.0
	if low < 0 && high > 0 {
		if s, err = narrow(lead, 0, float64(full), low, high); err != nil {
			return err
		}
	}
	m, err := r.withBase(quantity.Strength(s)).mix()
	coldest = m.cold.IceOr(solution.Floor)
	if err != nil {
		return err
	}
	return fault.Input(fault.FieldKeepClear, "ice forms before %v at these shares, whatever the base; allowed: down to %v, or a larger share of the last part",
		clear, quantity.Temperature(math.Ceil(18*(coldest-273.15)+1e-6)/18+273.15)) // to a tenth of a degree F, upward
}

func (r BlendRequest) lastShare() float64 {
	sum := 0.0
	for _, p := range r.Parts {
		sum += p.Amount
	}
	return r.Parts[len(r.Parts)-1].Amount / sum
}

// strongestBase finds the strength; true when saturated base will do.
func (r BlendRequest) strongestBase(clear quantity.Temperature) (quantity.Strength, bool, error) {
	if _, plain := r.Parts[0].Liquid.Strength(); !plain {
		return 0, false, fault.Input(fault.FieldKeepClear, "the first part is not plain salt brine; allowed: with brine first")
	}
	for _, p := range r.Parts {
		if len(p.Liquid.Products) > 0 {
			return 0, false, fault.Input(fault.FieldKeepClear, "%v is known by its data sheet alone, which does not tell when salt falls out; allowed: chlorides", fault.Word(p.Liquid.Name))
		}
	}
	full, err := balance.Saturation(r.Temperature)
	if err != nil {
		return 0, false, err
	}
	off := func(s float64) (float64, error) {
		m, err := r.withBase(quantity.Strength(s)).mix()
		if !m.cold.Salt.Found {
			return solution.Floor - float64(clear), err
		}
		return m.cold.Salt.Temperature - float64(clear), err
	}
	low, err := off(0)
	if err != nil {
		return 0, false, err
	}
	if low > 0 {
		return 0, false, fault.Input(fault.FieldKeepClear, "salt falls out of the other parts alone, at %v; allowed: that and warmer, or a smaller share of them",
			quantity.Temperature(low+float64(clear)))
	}
	high, err := off(float64(full))
	if err != nil {
		return 0, false, err
	}
	if high <= 0 {
		return full, true, nil
	}
	s, err := narrow(off, 0, float64(full), low, high)
	return quantity.Strength(s), false, err
}

// Meet returns the blend that has an ice point and keeps clear of salt, by the
// share of the last part and the strength of the base; with a share of none when
// the base alone meets both. Errors: InputError when both cannot be met.
func Meet(r BlendRequest, ice, clear quantity.Temperature) (Solved, error) {
	if err := r.check(); err != nil {
		return Solved{}, err
	}
	if err := r.sharesToSolve(); err != nil {
		return Solved{}, err
	}
	if clear < ice {
		return Solved{}, fault.Input(fault.FieldKeepClear, "ice would be there before, from %v down; allowed: that and warmer", ice)
	}
	if m, err := r.withShare(0).mix(); err == nil && m.cold.IceOr(solution.Floor) <= float64(ice) &&
		(!m.cold.Salt.Found || m.cold.Salt.Temperature <= float64(clear)) {
		return r.withShare(0).solved(0) // the base alone does, as it is
	}
	best := math.Inf(1)
	off := func(x float64) (float64, error) {
		s, _, err := r.withShare(x).strongestBase(clear)
		if err != nil {
			return 0, err
		}
		m, err := r.withShare(x).withBase(s).mix()
		if err != nil {
			return 0, err
		}
		at := m.cold.IceOr(solution.Floor)
		best = math.Min(best, at)
		return at - float64(ice), nil
	}
	x, err := firstCrossing(off)
	if err != nil && math.IsInf(best, 1) {
		return Solved{}, err
	}
	if math.IsNaN(x) && best <= float64(ice) {
		x = 0 // the base alone is cold enough, and more than that
	}
	if err != nil || math.IsNaN(x) {
		return Solved{}, fault.Input(fault.FieldIceAt, "cannot be met while it keeps clear down to %v: the best ice point that does is %v; allowed: warmer than that",
			clear, quantity.Temperature(best))
	}
	out, err := KeepClear(r.withShare(x), clear)
	out.Share = quantity.Fraction(x)
	return out, err
}

// firstCrossing returns the smallest share, from 0 to 1, at which off passes zero, NaN
// when it does not. Ice points fall smoothly with a share, or rise where the last
// part dilutes: the steps find the first passage.
func firstCrossing(off func(float64) (float64, error)) (float64, error) {
	const steps = 40
	first, err := off(0)
	if err != nil || math.Abs(first) < 1e-6 {
		return 0, err
	}
	// The last two shares, and off at them: a hollow between steps is looked into.
	x0, y0 := math.NaN(), math.NaN()
	x1, y1 := 0.0, first
	for i := 1; i <= steps; i++ {
		x2 := float64(i) / steps
		y2, err := off(x2)
		if err != nil {
			return math.NaN(), err
		}
		if (y2 > 0) != (first > 0) {
			return narrow(off, x1, x2, y1, y2)
		}
		if math.Abs(y1) < math.Abs(y0) && math.Abs(y1) < math.Abs(y2) {
			bottom, err := hollow(off, x0, x2, first > 0)
			if err != nil {
				return math.NaN(), err
			}
			if y, err := off(bottom); err == nil && (y > 0) != (first > 0) {
				return narrow(off, x0, bottom, y0, y)
			}
		}
		x0, y0, x1, y1 = x1, y1, x2, y2
	}
	return math.NaN(), nil
}

// hollow finds where off is least (most, when it is below zero) between two shares.
func hollow(off func(float64) (float64, error), low, high float64, above bool) (float64, error) {
	var failed error
	x := root.Least(func(x float64) float64 {
		y, err := off(x)
		if err != nil {
			failed = err
		}
		if !above {
			y = -y
		}
		return y
	}, low, high, 40)
	return x, failed
}

// narrow finds where off crosses zero between low and high, given its values
// there. It is an error when it crosses nowhere.
func narrow(off func(float64) (float64, error), low, high, atLow, atHigh float64) (float64, error) {
	var failed error
	x, ok := root.Between(func(x float64) float64 {
		y, err := off(x)
		if err != nil {
			failed = err
		}
		return y
	}, low, high, atLow, atHigh, 1e-12)
	if !ok && failed == nil {
		failed = fmt.Errorf("nothing crosses zero from %g to %g", low, high)
	}
	return x, failed
}
