package balance

import (
	"brineyard/internal/quantity"
)

// Vessel is a liquid and its mass; the zero value is empty. Masses add, volumes do not:
// so what goes in and out is kept by mass, and volumes follow from the density.
type Vessel struct {
	Liquid Liquid
	Mass   quantity.Mass // kg
}

// Fill returns a vessel that holds a volume of a liquid at a temperature. Errors:
// solution.ErrComposition, solution.ErrTemperature.
func Fill(l Liquid, volume quantity.Volume, t quantity.Temperature) (Vessel, error) {
	rho, err := l.Density(t)
	if err != nil {
		return Vessel{}, err
	}
	return Vessel{Liquid: l, Mass: volume.Mass(rho)}, nil
}

// Add mixes a mass (0 and above) of a liquid in.
func (v *Vessel) Add(l Liquid, mass quantity.Mass) {
	switch {
	case mass == 0:
		return
	case v.Mass == 0:
		v.Liquid, v.Mass = l, mass
		return
	}
	total := v.Mass + mass
	mixed := Liquid{
		Name:        mixName(v.Liquid.Name, l.Name),
		Composition: v.Masses().Plus(MassesOf(l, mass)).fractions(float64(total)),
	}
	for _, p := range v.Liquid.Products {
		mixed.add(p.Product, p.Share*float64(v.Mass)/float64(total))
	}
	for _, p := range l.Products {
		mixed.add(p.Product, p.Share*float64(mass)/float64(total))
	}
	v.Liquid, v.Mass = mixed, total
}

// Draw takes a mass out, at most what there is, and returns it. A remainder that only
// rounding can have left goes along, so that what comes out is what went in.
func (v *Vessel) Draw(mass quantity.Mass) Vessel {
	const dregs = quantity.Mass(1e-9)
	drawn := Vessel{Liquid: v.Liquid, Mass: max(0, min(mass, v.Mass))}
	if v.Mass-drawn.Mass < dregs {
		drawn.Mass = v.Mass
	}
	v.Mass -= drawn.Mass
	return drawn
}

// DrawVolume takes a volume at a temperature out, at most what there is, and returns it.
// Errors: solution.ErrComposition, solution.ErrTemperature.
func (v *Vessel) DrawVolume(volume quantity.Volume, t quantity.Temperature) (Vessel, error) {
	if v.Mass == 0 {
		return Vessel{Liquid: v.Liquid}, nil
	}
	rho, err := v.Density(t)
	if err != nil {
		return Vessel{}, err
	}
	return v.Draw(volume.Mass(rho)), nil
}

// Density returns kg/m3 at a temperature. Errors: solution.ErrComposition,
// solution.ErrTemperature.
func (v Vessel) Density(t quantity.Temperature) (quantity.Density, error) { return v.Liquid.Density(t) }

// Volume returns m3 at a temperature; 0 for an empty vessel. Errors:
// solution.ErrComposition, solution.ErrTemperature.
func (v Vessel) Volume(t quantity.Temperature) (quantity.Volume, error) {
	if v.Mass == 0 {
		return 0, nil
	}
	rho, err := v.Density(t)
	if err != nil {
		return 0, err
	}
	return v.Mass.Volume(rho), nil
}

// Masses returns kg of what the vessel holds.
func (v Vessel) Masses() Masses { return MassesOf(v.Liquid, v.Mass) }

// Mixed names what two liquids of different names become.
const Mixed = "mixed"

// mixName names a mix. Fresh water has no name, and does not change what a liquid is called.
func mixName(a, b string) string {
	switch {
	case a == b, b == "":
		return a
	case a == "":
		return b
	}
	return Mixed
}
