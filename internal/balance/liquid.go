// Package balance holds liquids by mass: what they consist of, what they weigh, and what
// they become when they are mixed.
package balance

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Liquid is anything that stands in a tank: a solution of chlorides, with products
// that only a data sheet describes mixed into it.
type Liquid struct {
	Name string // for people
	// Composition is by mass of the whole liquid; Other holds the solutes of the
	// products.
	Composition solution.Composition
	Products    []Ingredient
}

// Ingredient is a product as delivered, by mass per mass of the liquid.
type Ingredient struct {
	Product *solution.Product
	Share   float64
}

// BrineName names the liquid that a yard makes: salt brine.
const BrineName = "brine"

// SaltBrine is plain brine of a strength.
func SaltBrine(s quantity.Strength) Liquid {
	return Liquid{Name: BrineName, Composition: solution.Brine(float64(s))}
}

// OfProduct is a product as delivered.
func OfProduct(name string, p *solution.Product) Liquid {
	return Liquid{
		Name:        name,
		Composition: solution.Composition{Other: p.Solute},
		Products:    []Ingredient{{p, 1}},
	}
}

// Named returns the liquid under another name.
func (l Liquid) Named(name string) Liquid {
	l.Name = name
	return l
}

// Strength returns the strength of plain NaCl brine; false for anything else.
func (l Liquid) Strength() (quantity.Strength, bool) {
	return quantity.Strength(l.Composition.NaCl), l.Composition == solution.Brine(l.Composition.NaCl)
}

// Density returns kg/m3 at a temperature. The chlorides count as one solution, the
// products as they were delivered, and volumes add.
func (l Liquid) Density(t quantity.Temperature) (quantity.Density, error) {
	rest, volume := 1.0, 0.0
	for _, p := range l.Products {
		rest -= p.Share
		volume += p.Share / p.Product.Density
	}
	if rest > 1e-12 {
		c := l.Composition
		chlorides := solution.Composition{
			NaCl: c.NaCl / rest, KCl: c.KCl / rest, CaCl2: c.CaCl2 / rest, MgCl2: c.MgCl2 / rest,
		}
		rho, err := solution.Density(chlorides, float64(t))
		if err != nil {
			return 0, err
		}
		volume += rest / rho
	}
	return quantity.Density(1 / volume), nil
}

// Cold is what a liquid does on cooling. Where published data disagree on where salt falls out, Salt is the warm
// side, which to plan by.
type Cold struct {
	solution.Freezing
	// SaltLow is the cold side of where salt falls out; Salt itself where nothing disagrees.
	SaltLow solution.Onset
	// Borrowed is set when the width between the two is that of calcium chloride, since none is published for
	// magnesium's.
	Borrowed bool
	// IceLow and IceHigh bound an estimated ice point, in K.
	IceLow, IceHigh float64
	// Estimated is set when products are in it: then the ice point is an estimate,
	// and where salt falls out is not known.
	Estimated bool
	// Beyond is set when the liquid stays clear of ice down to the end of a
	// product's table; Ice.Temperature is that end.
	Beyond bool
}

// Cold returns ice point and salt-out temperature.
func (l Liquid) Cold() (Cold, error) {
	if len(l.Products) == 0 {
		return chlorideCold(l.Composition)
	}
	ice, err := solution.EstimateIcePoint(l.Composition, l.shares())
	c := Cold{
		Freezing:  solution.Freezing{Ice: ice, Salt: solution.Onset{Solid: solution.Halite}},
		Estimated: true,
		Beyond:    !ice.Found,
	}
	c.IceLow, c.IceHigh = solution.EstimateBound(ice.Temperature)
	return c, err
}

// chlorideCold is what a solution of chlorides does on cooling, by the model and by the second opinion on it.
func chlorideCold(composition solution.Composition) (Cold, error) {
	model := solution.Anchored()
	f, err := model.Freezing(composition)
	c := Cold{Freezing: f, SaltLow: f.Salt, IceLow: f.Ice.Temperature, IceHigh: f.Ice.Temperature}
	second, differs := model.SecondOpinion(composition)
	if err != nil || !differs {
		return c, err
	}
	there, err := second.SaltOut(composition)
	warmer := there.Found && (!f.Salt.Found || there.Temperature > f.Salt.Temperature)
	if warmer {
		c.Salt = there
	} else {
		c.SaltLow = there
	}
	c.Borrowed = composition.MgCl2 > composition.CaCl2
	return c, err
}

// disagreement is by how much (K) two opinions have to part before anybody is told: less than a thermometer
// shows.
const disagreement = 0.3

// Disputed reports whether published data disagree on where salt falls out.
func (c Cold) Disputed() bool {
	if !c.Salt.Found || c.Salt.Saturated {
		return false
	}
	return !c.SaltLow.Found || c.Salt.Temperature-c.SaltLow.Temperature > disagreement
}

func (l Liquid) shares() []solution.ProductShare {
	var shares []solution.ProductShare
	for _, p := range l.Products {
		shares = append(shares, solution.ProductShare{Product: p.Product, Solute: p.Share * p.Product.Solute})
	}
	return shares
}

// Reading returns what an instrument shows in the liquid; false when it stands off
// the scale.
func (l Liquid) Reading(i gauge.Instrument, t quantity.Temperature) (float64, bool) {
	rho, err := l.Density(t)
	if err != nil {
		return 0, false
	}
	return i.Reading(float64(rho), float64(t))
}

// add counts a product once, however many parts bring it.
func (l *Liquid) add(p *solution.Product, share float64) {
	if share == 0 {
		return
	}
	for i := range l.Products {
		if l.Products[i].Product == p {
			l.Products[i].Share += share
			return
		}
	}
	l.Products = append(l.Products, Ingredient{p, share})
}

// IceOr returns the ice point in K, or otherwise when there is none.
func (c Cold) IceOr(otherwise float64) float64 {
	if c.Ice.Found || c.Beyond {
		return c.Ice.Temperature
	}
	return otherwise
}

// SaltOr returns the temperature in K at which salt first falls out, on the warm side, or otherwise when none
// does.
func (c Cold) SaltOr(otherwise float64) float64 {
	if c.Salt.Found {
		return c.Salt.Temperature
	}
	return otherwise
}
