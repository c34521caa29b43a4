package yard

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Liquid is one that the yard buys or keeps: a solution of chlorides, or a product that its
// data sheet describes.
type Liquid struct {
	balance.Liquid
	Price  *quantity.PricePerVolume // nil means unknown
	OnHand quantity.Volume          // outside the tanks
	Said   Said                     // of OnHand
}

// Blend is salt brine with an additive metered into it.
type Blend struct {
	Name     string
	Additive string            // a liquid of the yard
	Share    quantity.Fraction // of the additive, by volume
}

// Liquid finds a liquid by name.
func (y *Yard) Liquid(name string) (Liquid, bool) {
	return named(y.Liquids, name, func(l Liquid) string { return l.Name })
}

// Blend finds a blend by name.
func (y *Yard) Blend(name string) (Blend, bool) {
	return named(y.Blends, name, func(b Blend) string { return b.Name })
}

// Sprays reports whether a route can take a liquid: brine, a liquid of the yard, or a blend.
func (y *Yard) Sprays(name string) bool {
	_, liquid := y.Liquid(name)
	_, blend := y.Blend(name)
	return liquid || blend || name == balance.BrineName
}
