package working

import (
	"math"

	"brineyard/internal/quantity"
)

// Of prints a quantity in the user's units.
func (s *Sheet) Of(q quantity.Quantity) Term {
	shown := q.In(s.system)
	return Number(shown.Value, shown.Unit)
}

// Density prints a density in the unit that turns gallons into pounds, or liters into
// kilograms.
func (s *Sheet) Density(d quantity.Density) Term {
	if s.system == quantity.Metric {
		return Number(float64(d)/1000, "kg/L")
	}
	return s.Of(d)
}

// DensityOf is the quantity that a term of Density stands for.
func (s *Sheet) DensityOf(t Term) quantity.Density {
	if s.system == quantity.Metric {
		return quantity.Density(1000 * t.value)
	}
	return quantity.Density(t.value) * quantity.PoundPerGallon
}

// Share prints a strength as the fraction that is multiplied with.
func Share(w quantity.Strength) Term { return Number(float64(w), "") }

// ShareBeside is Share with as many more digits as keep its difference from another strength.
func ShareBeside(w, other quantity.Strength) Term {
	more := 0
	for off := math.Abs(float64(w - other)); off > 0 && off < 1e-3 && more < 6; off *= 10 {
		more++
	}
	return Term{toDigits(float64(w), digits+more), ""}
}

// Percent prints a strength in percent.
func Percent(w quantity.Strength) Term { return Number(100*float64(w), "%") }

// MassUnit is the unit of weight.
func (s *Sheet) MassUnit() string { return quantity.Pound.In(s.system).Unit }

// VolumeUnit is the unit of volume.
func (s *Sheet) VolumeUnit() string { return quantity.Gallon.In(s.system).Unit }

// US reports whether the sheet is in US units: some rules are stated by the thermometer at
// hand.
func (s *Sheet) US() bool { return s.system == quantity.US }
