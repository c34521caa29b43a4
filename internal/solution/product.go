package solution

import (
	"errors"
	"fmt"
	"math"

	"brineyard/internal/root"
)

// Product is a liquid that only a data sheet describes: an acetate, an organic
// by-product.
type Product struct {
	// Solute is the mass fraction of solute, as delivered.
	Solute float64
	// Density is in kg/m3, as delivered; it is used at every temperature.
	Density float64
	// Freezing is the table of ice points of dilutions of the product, from weak to
	// strong.
	Freezing []FreezingPoint
}

// FreezingPoint is one row of a data sheet: the mass fraction of solute and the
// temperature in K at which ice forms.
type FreezingPoint struct{ Solute, Temperature float64 }

// ErrProduct is returned for a data sheet that no product can have.
var ErrProduct = errors.New("not a product's data sheet")

// Check returns ErrProduct, with the reason, unless the sheet has a solute and a
// density, and a table of at least one row in which more solute freezes colder.
func (p *Product) Check() error {
	switch {
	case !(p.Solute > 0 && p.Solute <= 1):
		return fmt.Errorf("%w: solute is to be above 0 %% and at most 100 %%", ErrProduct)
	case !(p.Density >= 500 && p.Density <= 3000):
		return fmt.Errorf("%w: density is to be from 500 to 3000 kg/m3", ErrProduct)
	case len(p.Freezing) == 0:
		return fmt.Errorf("%w: the freezing table is empty", ErrProduct)
	}
	before := FreezingPoint{0, zeroCelsius}
	for i, f := range p.Freezing {
		if !(f.Solute > before.Solute && f.Solute < 1 && f.Temperature < before.Temperature && f.Temperature >= Floor) {
			return fmt.Errorf("%w: row %d of the freezing table: each row is to have more solute, and freeze colder, than the one before, down to -70 C",
				ErrProduct, i+1)
		}
		before = f
	}
	return nil
}

// Coldest returns the temperature (K) at which the freezing table ends.
func (p *Product) Coldest() float64 { return p.Freezing[len(p.Freezing)-1].Temperature }

// ratio returns the mass of solute per mass of water that alone freezes at t (K):
// a monotone cubic through the table and pure water, from Coldest to 0 C.
func (p *Product) ratio(t float64) float64 {
	points := make([]knot, 0, len(p.Freezing)+1)
	points = append(points, knot{zeroCelsius, 0})
	for _, f := range p.Freezing {
		points = append(points, knot{f.Temperature, f.Solute / (1 - f.Solute)})
	}
	return monotone(points, t)
}

// warmestIce is how far below 0 C (K) ice begins here: the melting point of the model
// is -6e-6 C, and closer to 0 C its equations have no root.
const warmestIce = 1e-4

// ProductShare is the amount of a product in a mix.
type ProductShare struct {
	Product *Product
	Solute  float64 // mass of its solute per mass of the mix
}

// EstimateIcePoint returns the ice point of a mix of chlorides and products by the
// Zdanovskii-Stokes-Robinson rule: at the freezing temperature the sum, over the
// components, of (solute per water) / (solute per water of that component alone
// freezing there) is 1. All chlorides count as one component at their ratio; c.Other
// must include the products' solutes. It is an estimate, good where the components do
// not interact. Found is false when the mix stays liquid down to the end of a
// product's table, and Temperature is then that end. Errors: ErrComposition,
// ErrProduct.
func EstimateIcePoint(c Composition, products []ProductShare) (Onset, error) {
	if err := c.Check(); err != nil {
		return Onset{}, err
	}
	bottom := Floor
	for _, p := range products {
		if err := p.Product.Check(); err != nil {
			return Onset{}, err
		}
		if p.Solute > 0 {
			bottom = math.Max(bottom, p.Product.Coldest())
		}
	}
	sum := func(t float64) float64 { return standard.zdanovskii(c, products, t) - 1 }
	// Just below 0 C a trace of any component keeps the mix liquid.
	const top = zeroCelsius - warmestIce
	high := sum(top)
	if high <= 0 {
		return Onset{Temperature: zeroCelsius, Solid: Ice, Found: true}, nil
	}
	t, ok := root.Between(sum, bottom, top, sum(bottom), high, onsetTolerance)
	if !ok {
		return Onset{Temperature: bottom, Solid: Ice}, nil
	}
	return Onset{Temperature: t, Solid: Ice, Found: true}, nil
}

// zdanovskii returns the sum of the rule at t (K).
func (k *coefficients) zdanovskii(c Composition, products []ProductShare, t float64) float64 {
	sum := 0.0
	for _, p := range products {
		if p.Solute > 0 {
			sum += p.Solute / c.Water() / p.Product.ratio(t)
		}
	}
	if m := k.molality(c); m.chloride() > 0 {
		sum += 1 / k.chlorideScale(&m, t)
	}
	return sum
}

// chlorideScale returns the least factor for all molalities with which the solution
// freezes at t (K), below 0 C; infinity when there is none.
func (k *coefficients) chlorideScale(m *molality, t float64) float64 {
	logK := math.Ln10 * k.logK(Ice, t)
	p := k.parametersAt(t, m)
	off := func(logScale float64) float64 {
		scale := math.Exp(logScale)
		var scaled molality
		for s := range m {
			scaled[s] = scale * m[s]
		}
		a := p.activity(&scaled)
		return a.LnWater - logK
	}
	// Osmotic coefficients lie between 0.5 and 5: begin at 5, and step up until the
	// activity of water falls below that of ice.
	low := math.Log(-logK/(m.dissolved()*k.water)) - math.Log(5)
	atLow := off(low)
	for range 60 {
		const step = 0.1
		high := low + step
		atHigh := off(high)
		if log, ok := root.Between(off, low, high, atLow, atHigh, 1e-10); ok {
			return math.Exp(log)
		}
		low, atLow = high, atHigh
	}
	return math.Inf(1)
}

// EstimateBound returns between which temperatures (K) an ice point that EstimateIcePoint gave lies: a twentieth of
// the lowering and half a degree either way. Tried on mixes of chlorides, whose ice points the model knows, the rule is
// off by less than a fiftieth of the lowering; products do more to each other than chlorides, and sheets are rounded.
func EstimateBound(ice float64) (low, high float64) {
	off := estimateError*math.Max(0, zeroCelsius-ice) + sheetRounding
	return ice - off, math.Min(zeroCelsius, ice+off)
}

// estimateError is the part of the lowering, and sheetRounding what is added to it in K, by which an estimate may be
// off; TestEstimateAgainstTheModel measures the rule. Common practice, no source, for the rest.
const estimateError, sheetRounding = 0.05, 0.5
