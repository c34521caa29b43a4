package brine

import (
	"cmp"
	"errors"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Stand is a liquid at equilibrium at a temperature: fractions by mass, and masses when a
// volume was given.
type Stand struct {
	Liquid, Ice, Salt quantity.Fraction
	// Left is the liquid that is left, with its strength if it is plain brine.
	Left     balance.Liquid
	Crystals map[solution.Solid]quantity.Fraction
	Pumpable bool
	// IceMass and SaltMass are for the volume in the tank; 0 when not known.
	// SaltMass is of crystals with the water bound in them, DrySalt without.
	IceMass, SaltMass, DrySalt quantity.Mass
}

// A slurry counts as pumpable with up to MostIce of ice by mass. At least leastLiquid of the
// whole, crystals on the floor included, has to be liquid. Common practice, no source.
const (
	MostIce     = 0.1
	leastLiquid = 0.5
)

// inModel refuses a temperature to stand at that lies outside the model.
func inModel(at quantity.Temperature) error {
	const coldest, warmest = quantity.Temperature(solution.Floor), quantity.Temperature(solution.SearchTop)
	return fault.If(!fault.Within(at, coldest, warmest), fault.FieldAt, "outside the model; allowed: %v to %v", coldest, warmest)
}

// stand returns the equilibrium at the temperature that was asked.
func (r FreezeRequest) stand(rho quantity.Density) (Stand, error) {
	if err := cmp.Or(r.chloridesAlone(fault.FieldAt), inModel(r.At)); err != nil {
		return Stand{}, err
	}
	e, err := solution.Anchored().Equilibrium(r.Liquid.Composition, float64(r.At))
	if errors.Is(err, solution.ErrNotConverged) {
		return Stand{}, fault.Input(fault.FieldAt, "the model finds no equilibrium for this liquid there; it is checked up to %v dissolved", quantity.Strength(solution.CheckedTo))
	}
	if err != nil {
		return Stand{}, err
	}
	s := Stand{
		Liquid:   quantity.Fraction(e.LiquidFraction),
		Ice:      quantity.Fraction(e.Ice()),
		Salt:     quantity.Fraction(e.Salt()),
		Left:     balance.Liquid{Name: "what is left", Composition: e.Liquid},
		Crystals: map[solution.Solid]quantity.Fraction{},
	}
	mass, dry := float64(r.Volume.Mass(rho)), 0.0
	for _, solid := range solution.Solids() {
		salt, ok := solid.Salt()
		if x := e.Solid[solid]; ok && x > 0 {
			s.Crystals[solid] = quantity.Fraction(x)
			dry += x * salt.MolarMass() / solid.MolarMass()
		}
	}
	s.Pumpable = s.Ice <= MostIce*(s.Ice+s.Liquid) && s.Liquid >= leastLiquid
	s.IceMass = quantity.Mass(mass * e.Ice())
	s.SaltMass = quantity.Mass(mass * e.Salt())
	s.DrySalt = quantity.Mass(mass * dry)
	return s, nil
}

// Melt is what a liquid does on a pavement with ice on it.
type Melt struct {
	PerVolume quantity.Density // mass of ice that a volume melts
	// Dilution is the mass of melt water taken up per mass of liquid, Diluted the
	// total strength that it ends at.
	Dilution quantity.Fraction
	Diluted  quantity.Strength
}

func (r FreezeRequest) melt(rho quantity.Density) (Melt, error) {
	if err := r.chloridesAlone(fault.FieldPavement); err != nil {
		return Melt{}, err
	}
	melted, err := solution.Anchored().Melting(r.Liquid.Composition, float64(r.Pavement))
	if errors.Is(err, solution.ErrTemperature) {
		return Melt{}, fault.Input(fault.FieldPavement, "ice melts by itself at %v, and the model ends at %v; allowed: between them",
			quantity.Celsius(0), quantity.Temperature(solution.Floor))
	}
	if err != nil {
		return Melt{}, err
	}
	return Melt{
		PerVolume: quantity.Density(melted * float64(rho)),
		Dilution:  quantity.Fraction(melted),
		Diluted:   quantity.Strength(r.Liquid.Composition.Solute() / (1 + melted)),
	}, nil
}
