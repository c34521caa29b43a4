package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Part is one of the liquids of a blend.
type Part struct {
	Liquid balance.Liquid
	Amount float64 // parts by volume or by weight, any one unit
	// Price is nil where it is not known.
	Price *quantity.PricePerVolume
}

// BlendRequest asks what a mix of liquids becomes.
type BlendRequest struct {
	Parts       []Part
	ByWeight    bool
	Temperature quantity.Temperature // of every part
	Volume      quantity.Volume      // of blend wanted; 0 for none
	Instrument  gauge.Instrument
}

// Blend is what becomes of it.
type Blend struct {
	Liquid  balance.Liquid
	Density quantity.Density // at Temperature
	Cold    balance.Cold
	// Chloride is the mass of chloride ion per volume.
	Chloride quantity.Density
	// Cost is that of the parts; Priced tells whether every part has a price.
	Cost   quantity.PricePerVolume
	Priced bool
	// Reading is what Instrument shows; false when it stands off its scale.
	Reading float64
	OnScale bool
	// Heat is given off by mixing, and FinalTemp is what it leads to with none lost.
	// HeatKnown is false where a product is in the blend, whose heat is not known.
	Heat      quantity.HeatPerVolume
	FinalTemp quantity.Temperature
	HeatKnown bool
	// Amounts are the volumes of the parts for one m3 of blend, or for Volume.
	Amounts []quantity.Volume
	Total   quantity.Volume
}

// NewBlend mixes the parts. Volumes do not add: masses do. Errors: InputError.
func NewBlend(r BlendRequest) (Blend, error) {
	if err := r.check(); err != nil {
		return Blend{}, err
	}
	m, err := r.mix()
	if err != nil {
		return Blend{}, err
	}
	if _, err := m.liquid.DissolvesAt(r.Temperature); err != nil {
		return Blend{}, err
	}
	b := Blend{Liquid: m.liquid, Cold: m.cold, Total: 1}
	if b.Density, err = b.Liquid.Density(r.Temperature); err != nil {
		return Blend{}, err
	}
	if r.Volume > 0 {
		b.Total = r.Volume
	}
	mass := float64(b.Total.Mass(b.Density))
	for i := range r.Parts {
		b.Amounts = append(b.Amounts, quantity.Mass(mass*m.shares[i]).Volume(m.densities[i]))
	}
	b.Chloride = quantity.Density(b.Liquid.Composition.Chloride() * float64(b.Density))
	b.Cost, b.Priced = r.cost(b)
	b.Reading, b.OnScale = b.Liquid.Reading(r.Instrument, r.Temperature)
	return b, b.heat(r, m.shares)
}

// mixture is a blend as far as the cold is concerned.
type mixture struct {
	liquid    balance.Liquid
	cold      balance.Cold
	shares    []float64 // by mass, summing to 1
	densities []quantity.Density
}

// mix turns the amounts into masses and mixes them.
func (r BlendRequest) mix() (mixture, error) {
	m := mixture{shares: make([]float64, len(r.Parts)), densities: make([]quantity.Density, len(r.Parts))}
	var all balance.Vessel
	for i, p := range r.Parts {
		rho, err := p.Liquid.Density(r.Temperature)
		if err != nil {
			return m, err
		}
		m.densities[i], m.shares[i] = rho, p.Amount
		if !r.ByWeight {
			m.shares[i] *= float64(rho)
		}
		all.Add(p.Liquid, quantity.Mass(m.shares[i]))
	}
	for i := range m.shares {
		m.shares[i] /= float64(all.Mass)
	}
	m.liquid = all.Liquid.Named("the blend")
	var err error
	m.cold, err = m.liquid.Cold()
	return m, err
}

// cost adds up the prices; false unless all are known. Water costs next to nothing.
func (r BlendRequest) cost(b Blend) (quantity.PricePerVolume, bool) {
	sum := 0.0
	for i, p := range r.Parts {
		water := p.Liquid.Composition == (solution.Composition{})
		switch {
		case p.Price != nil:
			sum += float64(*p.Price) * float64(b.Amounts[i])
		case !water:
			return 0, false
		}
	}
	return quantity.PricePerVolume(sum / float64(b.Total)), true
}

// heat works out what mixing gives off, and the temperature that it leads to.
func (b *Blend) heat(r BlendRequest, shares []float64) error {
	if len(b.Liquid.Products) > 0 {
		return nil
	}
	t := float64(r.Temperature)
	taken, err := solution.HeatTaken(b.Liquid.Composition, t)
	if err != nil {
		return err
	}
	for i, p := range r.Parts {
		before, err := solution.HeatTaken(p.Liquid.Composition, t)
		if err != nil {
			return err
		}
		taken -= before * shares[i]
	}
	capacity, err := solution.HeatCapacity(b.Liquid.Composition, t)
	if err != nil {
		return err
	}
	b.Heat, b.HeatKnown = quantity.HeatPerVolume(-taken*float64(b.Density)), true
	b.FinalTemp = quantity.Temperature(t - taken/capacity)
	return nil
}

func (r BlendRequest) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	sum := 0.0
	for _, p := range r.Parts {
		if err := fault.First(fault.When(!(p.Amount >= 0), fault.FieldParts, "a share below zero; allowed: 0 and above")); err != nil {
			return err
		}
		sum += p.Amount
		if _, err := p.Liquid.DissolvesAt(r.Temperature); err != nil {
			return err
		}
	}
	return fault.First(fault.When(!(sum > 0), fault.FieldParts, "no parts; allowed: shares above zero"))
}
