// Package season replays a journal: what stands in each tank after its entries, and
// what a season made, laid down and used. It reads no files: entries in, figures out.
package season

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Shop is what entries leave unsaid and the yard file says.
type Shop struct {
	Band        yard.Band
	RockSalt    yard.RockSalt
	Temperature quantity.Temperature // at which volumes are measured
	WaterTemp   quantity.Temperature // of fresh water
	Calibration quantity.Temperature // of the instruments
	Liquids     map[string]balance.Liquid
	Capacities  map[string]quantity.Volume // by tank; absent where not known
	Lanes       map[string]quantity.Length // by route, one pass
	CleanEvery  quantity.Volume            // the yard's own rule; 0 for none
	// LiquidPrices are those of bought liquids that are known.
	LiquidPrices map[string]quantity.PricePerVolume
	SaltPrice    *quantity.PricePerMass
	WaterPrice   *quantity.PricePerVolume
}

// DefaultShop is common practice, for a yard without a file.
func DefaultShop() Shop {
	sixty := quantity.Fahrenheit(60)
	return Shop{
		Band: yard.DefaultBand(), RockSalt: yard.PureSalt(),
		Temperature: sixty, WaterTemp: sixty, Calibration: sixty,
	}
}
