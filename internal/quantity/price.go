package quantity

import "strings"

// PricePerVolume is money per m3, in the yard's own currency.
type PricePerVolume float64

// PricePerMass is money per kg, in the yard's own currency.
type PricePerMass float64

var (
	pricePerVolumeDim = dimension{
		name: "a price", example: "0.85/gal or 220/kL", low: 0, high: 1e9,
		units: []unit{
			{names: []string{"/gal"}, scale: 1 / float64(Gallon)},
			{names: []string{"/L"}, scale: 1000},
			{names: []string{"/kL", "/m3"}, scale: 1},
		},
	}
	pricePerMassDim = dimension{
		name: "a price", example: "78/ton or 86/t", low: 0, high: 1e6,
		units: []unit{
			{names: []string{"/ton"}, scale: 1 / float64(shortTon)},
			{names: []string{"/t", "/tonne"}, scale: 1e-3},
			{names: []string{"/lb"}, scale: 1 / float64(Pound)},
			{names: []string{"/kg"}, scale: 1},
		},
	}
)

// parsePrice reads an amount of money, or a price per unit; a dollar sign in front is
// allowed.
func parsePrice[Q ~float64](d *dimension, text string) (Q, bool, error) {
	return parseAs[Q](d, strings.TrimPrefix(strings.TrimSpace(text), "$"))
}

// ParsePricePerVolume reads a price like 0.85/gal; a bare number is per gallon.
func ParsePricePerVolume(text string) (PricePerVolume, bool, error) {
	return parsePrice[PricePerVolume](&pricePerVolumeDim, text)
}

// ParsePricePerMass reads a price like 78/ton; a bare number is per short ton.
func ParsePricePerMass(text string) (PricePerMass, bool, error) {
	return parsePrice[PricePerMass](&pricePerMassDim, text)
}

// In shows money per gallon or liter.
func (p PricePerVolume) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(p)*float64(Liter), "/L", thousandths)
	}
	return shown(float64(p)*float64(Gallon), "/gal", thousandths)
}

// In shows money per short ton or tonne.
func (p PricePerMass) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(p)*1000, "/t", hundredths)
	}
	return shown(float64(p)*float64(shortTon), "/ton", hundredths)
}
