package brine

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
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
	if err := r.checkShares(); err != nil {
		return Solved{}, err
	}
	x, err := firstCrossing(func(x float64) (float64, error) {
		at, err := r.withShare(x).iceAt()
		return at - float64(ice), err
	})
	if err != nil {
		return Solved{}, err
	}
	if math.IsNaN(x) {
		return Solved{}, r.unreachable()
	}
	return r.withShare(x).solved(x)
}

// checkShares refuses a blend without shares to change.
func (r BlendRequest) checkShares() error {
	if err := r.check(); err != nil {
		return err
	}
	rest := 0.0
	for _, p := range r.Parts[:len(r.Parts)-1] {
		rest += p.Amount
	}
	return fault.If(rest == 0, fault.FieldIceAt, "one liquid has no shares; allowed: with two parts or more")
}

// iceAt returns the ice point in K; where none is found, the end of the model.
func (r BlendRequest) iceAt() (float64, error) {
	m, err := r.mix()
	return m.cold.IceOr(solution.Floor), err
}

// saltAt returns where salt falls out in K; where none does, the end of the model.
func (r BlendRequest) saltAt() (float64, error) {
	m, err := r.mix()
	return m.cold.SaltOr(solution.Floor), err
}

// unreachable tells what ice points the shares do reach.
func (r BlendRequest) unreachable() error {
	none, err := r.withShare(0).iceAt()
	all, noAll := r.withShare(1).iceAt()
	return cmp.Or(err, noAll, fault.Input(fault.FieldIceAt, "no share of the last part has its ice point there; allowed: between %v (none of it) and %v (nothing else)",
		quantity.Temperature(none), quantity.Temperature(all)))
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
func (r BlendRequest) withBase(s float64) BlendRequest {
	parts := append([]Part(nil), r.Parts...)
	parts[0].Liquid = balance.SaltBrine(quantity.Strength(s))
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
	s := float64(full)
	lead := func(s float64) (float64, error) {
		m, err := r.withBase(s).mix()
		return m.cold.SaltOr(solution.Floor) - m.cold.IceOr(solution.Floor), err
	}
	low, high, err := ends(lead, 0, s)
	if err == nil && low < 0 && high > 0 {
		s, err = narrow(lead, 0, s, low, high)
	}
	coldest, noIce := r.withBase(s).iceAt()
	return cmp.Or(err, noIce, fault.Input(fault.FieldKeepClear, "ice forms before %v at these shares, whatever the base; allowed: down to %v, or a larger share of the last part",
		clear, quantity.Temperature(math.Ceil(18*(coldest-273.15)+1e-6)/18+273.15))) // to a tenth of a degree F, upward
}

func (r BlendRequest) lastShare() float64 {
	sum := 0.0
	for _, p := range r.Parts {
		sum += p.Amount
	}
	return r.Parts[len(r.Parts)-1].Amount / sum
}

// strongestBase finds the strength; true when saturated base will do.
func (r BlendRequest) strongestBase(clear quantity.Temperature) (float64, bool, error) {
	_, plain := r.Parts[0].Liquid.Strength()
	if err := fault.If(!plain, fault.FieldKeepClear, "the first part is not plain salt brine; allowed: with brine first"); err != nil {
		return 0, false, err
	}
	for _, p := range r.Parts {
		if err := fault.If(len(p.Liquid.Products) > 0, fault.FieldKeepClear,
			"%v is known by its data sheet alone, which does not tell when salt falls out; allowed: chlorides", fault.Word(p.Liquid.Name)); err != nil {
			return 0, false, err
		}
	}
	full, err := balance.Saturation(r.Temperature)
	if err != nil {
		return 0, false, err
	}
	off := func(s float64) (float64, error) {
		at, err := r.withBase(s).saltAt()
		return at - float64(clear), err
	}
	low, high, err := ends(off, 0, float64(full))
	switch {
	case err != nil:
		return 0, false, err
	case low > 0:
		return 0, false, fault.Input(fault.FieldKeepClear, "salt falls out of the other parts alone, at %v; allowed: that and warmer, or a smaller share of them",
			quantity.Temperature(low)+clear)
	case high <= 0:
		return float64(full), true, nil
	}
	s, err := narrow(off, 0, float64(full), low, high)
	return s, false, err
}

// Meet returns the blend that has an ice point and keeps clear of salt, by the
// share of the last part and the strength of the base; with a share of none when
// the base alone meets both. Errors: InputError when both cannot be met.
func Meet(r BlendRequest, ice, clear quantity.Temperature) (Solved, error) {
	if err := r.checkShares(); err != nil {
		return Solved{}, err
	}
	if err := fault.If(clear < ice, fault.FieldKeepClear, "ice would be there before, from %v down; allowed: that and warmer", ice); err != nil {
		return Solved{}, err
	}
	alone := r.withShare(0)
	if m, err := alone.mix(); err == nil && m.cold.IceOr(solution.Floor) <= float64(ice) && m.cold.SaltOr(solution.Floor) <= float64(clear) {
		return alone.solved(0) // as it is
	}
	x, err := r.shareToMeet(ice, clear)
	if err != nil {
		return Solved{}, err
	}
	out, err := KeepClear(r.withShare(x), clear)
	out.Share = quantity.Fraction(x)
	return out, err
}

// shareToMeet finds the smallest share of the last part at which the strongest base that
// keeps clear has the ice point.
func (r BlendRequest) shareToMeet(ice, clear quantity.Temperature) (float64, error) {
	best := math.Inf(1)
	x, err := firstCrossing(func(x float64) (float64, error) {
		s, _, err := r.withShare(x).strongestBase(clear)
		if err != nil {
			return 0, err
		}
		at, err := r.withShare(x).withBase(s).iceAt()
		if err != nil {
			return 0, err
		}
		best = math.Min(best, at)
		return at - float64(ice), nil
	})
	switch {
	case err != nil && math.IsInf(best, 1):
		return 0, err
	case err == nil && !math.IsNaN(x):
		return x, nil
	case err == nil && best <= float64(ice):
		return 0, nil // the base alone is more than cold enough
	}
	return 0, fault.Input(fault.FieldIceAt, "cannot be met while it keeps clear down to %v: the best ice point that does is %v; allowed: warmer than that",
		clear, quantity.Temperature(best))
}
