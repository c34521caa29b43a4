package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// FreezeRequest asks what a liquid does in the cold.
type FreezeRequest struct {
	Liquid balance.Liquid
	// At is a temperature at which it stands; 0 for not asked.
	At quantity.Temperature
	// Pavement is a temperature at which it melts ice; 0 for not asked.
	Pavement quantity.Temperature
	// Volume is what stands in the tank, at StoredAt; 0 for not known.
	Volume   quantity.Volume
	StoredAt quantity.Temperature
	// Curve asks for the freezing diagram.
	Curve bool
}

// FreezeResult is what a liquid does in the cold.
type FreezeResult struct {
	Cold    balance.Cold
	Osmotic float64 // osmotic coefficient at the ice point
	Ice     float64 // natural logarithm of the activity of ice there
	// OutOfRange are the ranges of the model that the answer lies outside of.
	OutOfRange []solution.FitRange
	Density    quantity.Density // at StoredAt
	Stand      Stand            // Stands tells whether At was asked
	Stands     bool
	Melt       Melt // Melts tells whether Pavement was asked
	Melts      bool
	Curve      []CurvePoint // when the diagram was asked
}

// Freeze returns ice point and salt-out temperature of a liquid, and what else is
// asked. Errors: InputError for no solution, one that is not fully dissolved in
// the warm, or a question that a product's data sheet cannot answer.
func Freeze(r FreezeRequest) (FreezeResult, error) {
	cold, err := r.Liquid.Dissolves()
	if err != nil {
		return FreezeResult{}, fault.Relabel(err, fault.FieldLiquid)
	}
	out := FreezeResult{Cold: cold}
	if err := out.describe(r); err != nil {
		return FreezeResult{}, err
	}
	if out.Stands = r.At != 0; out.Stands {
		if out.Stand, err = r.stand(out.Density); err != nil {
			return FreezeResult{}, err
		}
	}
	if out.Melts = r.Pavement != 0; out.Melts {
		if out.Melt, err = r.melt(out.Density); err != nil {
			return FreezeResult{}, err
		}
	}
	if r.Curve {
		out.Curve, err = r.curve()
	}
	return out, err
}

// describe fills in density, limits and the state at the ice point.
func (f *FreezeResult) describe(r FreezeRequest) error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.StoredAt); err != nil {
		return err
	}
	var err error
	if f.Density, err = r.Liquid.Density(r.StoredAt); err != nil {
		return err
	}
	first := f.Cold.First().Temperature
	if !f.Cold.First().Found {
		first = solution.Floor
	}
	f.OutOfRange = solution.OutOfRange(solution.Saturation, r.Liquid.Composition, first)
	if !f.Cold.Ice.Found || f.Cold.Estimated {
		return nil
	}
	a, err := solution.ActivityAt(r.Liquid.Composition, f.Cold.Ice.Temperature)
	f.Osmotic, f.Ice = a.Osmotic, solution.LnIceActivity(f.Cold.Ice.Temperature)
	return err
}

// chloridesAlone refuses a question that only the chloride model answers.
func (r FreezeRequest) chloridesAlone(field string) error {
	return fault.If(len(r.Liquid.Products) > 0, field,
		"%v is known by its data sheet alone, which tells its ice point and no more; allowed: chlorides", fault.Word(r.Liquid.Name))
}
