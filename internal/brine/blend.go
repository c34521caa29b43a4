package brine

import (
	"cmp"

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

// Blend is the mix.
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

// NewBlend mixes the parts by mass, since volumes do not add. Errors: InputError.
func NewBlend(r BlendRequest) (Blend, error) {
	if err := r.check(); err != nil {
		return Blend{}, err
	}
	m, err := r.mix()
	if err != nil {
		return Blend{}, err
	}
	if err := m.liquid.CheckDissolved(m.cold, r.Temperature); err != nil {
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

// mixture is a blend, and what it does on cooling.
type mixture struct {
	liquid    balance.Liquid
	cold      balance.Cold
	shares    []float64 // by mass, summing to 1
	densities []quantity.Density
}

// mix turns the amounts into masses and mixes them.
func (r BlendRequest) mix() (mixture, error) {
	m := mixture{shares: make([]float64, len(r.Parts)), densities: make([]quantity.Density, len(r.Parts))}
	total := 0.0
	for i, p := range r.Parts {
		rho, err := p.Liquid.Density(r.Temperature)
		if err != nil {
			return m, err
		}
		m.densities[i], m.shares[i] = rho, p.Amount
		if !r.ByWeight {
			m.shares[i] *= float64(rho)
		}
		total += m.shares[i]
	}
	var all balance.Vessel
	for i, p := range r.Parts {
		m.shares[i] /= total
		all.Add(p.Liquid, quantity.Mass(m.shares[i]))
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

// heat sets what mixing gives off, and the temperature that it leads to.
func (b *Blend) heat(r BlendRequest, shares []float64) error {
	if len(b.Liquid.Products) > 0 {
		return nil
	}
	t := float64(r.Temperature)
	taken, err := solution.HeatTaken(b.Liquid.Composition, t)
	capacity, noCapacity := solution.HeatCapacity(b.Liquid.Composition, t)
	if err := cmp.Or(err, noCapacity); err != nil {
		return err
	}
	for i, p := range r.Parts {
		before, err := solution.HeatTaken(p.Liquid.Composition, t)
		if err != nil {
			return err
		}
		taken -= before * shares[i]
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
		sum += p.Amount
		_, err := p.Liquid.DissolvesAt(r.Temperature)
		if err := cmp.Or(fault.If(!(p.Amount >= 0), fault.FieldParts, "a share below zero; allowed: 0 and above"), err); err != nil {
			return err
		}
	}
	return fault.If(!(sum > 0), fault.FieldParts, "no parts; allowed: shares above zero")
}
