// Package wild draws requests that reach beyond what is allowed, for tests of refusals.
package wild

import (
	"math/rand/v2"

	"brineyard/internal/balance"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Wild draws values that reach beyond what is allowed.
type Wild struct{ *rand.Rand }

// New returns draws that a seed fixes.
func New(seed uint64) Wild { return Wild{rand.New(rand.NewPCG(seed, 3))} }

// Between returns a number between two.
func (w Wild) Between(low, high float64) float64 { return low + (high-low)*w.Float64() }

// Strength returns one from below 0 to above saturation.
func (w Wild) Strength() quantity.Strength { return quantity.Strength(w.Between(-0.005, 0.29)) }

// Temperature returns one from below to above what liquid brine is allowed.
func (w Wild) Temperature() quantity.Temperature { return quantity.Celsius(w.Between(-27, 52)) }

// RockSalt returns salt of any quality.
func (w Wild) RockSalt() yard.RockSalt {
	return yard.RockSalt{Purity: quantity.Strength(w.Between(0.48, 1.01)), Moisture: quantity.Strength(w.Between(-0.01, 0.21))}
}

// Instrument returns one of any scale.
func (w Wild) Instrument() gauge.Instrument {
	return gauge.Instrument{Scale: gauge.Scale(w.IntN(5)), Calibration: float64(w.Temperature())}
}

// Liquid returns brine, calcium chloride, a product or a mix.
func (w Wild) Liquid() balance.Liquid {
	switch w.IntN(4) {
	case 0:
		return balance.SaltBrine(w.Strength())
	case 1:
		return Calcium(w.Between(0, 0.55))
	case 2:
		sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
		return balance.OfProduct("sheet", sheet)
	}
	return balance.Liquid{Name: "mixed", Composition: solution.Composition{
		NaCl: w.Between(0, 0.2), KCl: w.Between(0, 0.1), CaCl2: w.Between(0, 0.2), MgCl2: w.Between(0, 0.2),
	}}
}

// Calcium is calcium chloride as it is sold.
func Calcium(strength float64) balance.Liquid {
	return balance.Liquid{Name: "calcium", Composition: solution.Composition{CaCl2: strength}}
}
