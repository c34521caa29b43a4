package gauge

import "brineyard/internal/quantity"

// scaleTable says of each scale what others need of it, in the order of the scales.
var scaleTable = [...]struct {
	name, words, kind, usage string
	parse                    func(string) (float64, bool, error)
	shown                    func(float64) quantity.Quantity
	row                      float64
}{
	PercentSalt:     {"hydrometer", "the hydrometer", "strength", "reading of a percent-salt hydrometer (% if no unit)", as(quantity.ParseStrength), func(x float64) quantity.Quantity { return quantity.Strength(x) }, 0.01},
	SpecificGravity: {"sg", "the hydrometer", "number", "reading of a specific-gravity hydrometer, against water at --cal", as(quantity.ParseSpecificGravity), func(x float64) quantity.Quantity { return quantity.SpecificGravity(x) }, 1},
	Salometer:       {"salometer", "the salometer", "degrees", "reading of a salometer, 100 at saturation", as(quantity.ParseSalometer), func(x float64) quantity.Quantity { return quantity.SalometerDegrees(x) }, 1},
	Baume:           {"baume", "the Baume hydrometer", "degrees", "reading of a Baume hydrometer for heavy liquids", as(quantity.ParseBaume), func(x float64) quantity.Quantity { return quantity.BaumeDegrees(x) }, 1},
	Weighed:         {"weigh", "the weighed sample", "density", "weight of a measured volume (lb/gal if no unit)", as(quantity.ParseDensity), func(x float64) quantity.Quantity { return quantity.Density(x) }, float64(quantity.PoundPerGallon)},
}

func as[Q ~float64](parse func(string) (Q, bool, error)) func(string) (float64, bool, error) {
	return func(text string) (float64, bool, error) {
		q, bare, err := parse(text)
		return float64(q), bare, err
	}
}

func (s Scale) Name() string                               { return scaleTable[s].name }
func (s Scale) Words() string                              { return scaleTable[s].words }
func (s Scale) Kind() string                               { return scaleTable[s].kind }
func (s Scale) Usage() string                              { return scaleTable[s].usage }
func (s Scale) Parse(text string) (float64, bool, error)   { return scaleTable[s].parse(text) }
func (s Scale) Quantity(reading float64) quantity.Quantity { return scaleTable[s].shown(reading) }
func (s Scale) Floats() bool                               { return s != Weighed }
func Scales() []Scale                                      { return []Scale{PercentSalt, SpecificGravity, Salometer, Baume, Weighed} }
