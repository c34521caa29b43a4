package storm

import (
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// recipe is what a volume of a liquid that routes take is made of.
type recipe struct {
	liquid  balance.Liquid
	density quantity.Density
	weight  quantity.Density // as it is loaded, in the cold
	// Brine is on target. Brine and other are a little more than the volume together, since
	// volumes shrink in mixing.
	brine, other quantity.Volume
	bought       *bought // of which other is; nil for brine
}

// recipe returns what a volume of a liquid is made of.
func (y *stormYard) recipe(name string, v quantity.Volume) (recipe, error) {
	c, err := y.parts(name, v)
	if err != nil {
		return c, err
	}
	if c.density, err = c.liquid.Density(y.r.Temperature); err != nil {
		return c, fault.Input(fault.FieldRoutes, "more salt dissolved in %v than the model covers; allowed: %v in all",
			fault.Word(name), quantity.Strength(solution.MaxSolute))
	}
	c.weight = c.density
	if cold, err := c.liquid.Density(y.r.LoadTemperature()); err == nil {
		c.weight = cold
	}
	return c, nil
}

// parts takes brine as it is made, a bought liquid as it comes, and a blend apart.
func (y *stormYard) parts(name string, v quantity.Volume) (recipe, error) {
	if name == balance.BrineName {
		return recipe{liquid: balance.SaltBrine(y.r.Band.Target), brine: v}, nil
	}
	at := slices.IndexFunc(y.r.Blends, func(b yard.Blend) bool { return b.Name == name })
	if at < 0 {
		o := y.bought(name)
		if o == nil {
			return recipe{}, fault.Input(fault.FieldRoutes, "no liquid is named %v; allowed: %v", fault.Word(name), fault.Word(y.liquidNames()))
		}
		return recipe{liquid: o.liquid, other: v, bought: o}, nil
	}
	b := y.r.Blends[at]
	o := y.bought(b.Additive)
	if o == nil {
		return recipe{}, fault.Input(fault.FieldRoutes, "the additive %v of blend %v is no liquid of the yard; allowed: %v",
			fault.Word(b.Additive), fault.Word(name), fault.Word(y.liquidNames()))
	}
	mixed, err := y.blend(o, b.Share, v)
	if err != nil {
		return recipe{}, err
	}
	return recipe{liquid: mixed.Liquid, brine: mixed.Amounts[0], other: mixed.Amounts[1], bought: o}, nil
}

// blend mixes a share of a bought liquid into brine on target.
func (y *stormYard) blend(o *bought, share quantity.Fraction, v quantity.Volume) (brine.Blend, error) {
	return brine.NewBlend(brine.BlendRequest{
		Parts: []brine.Part{
			{Liquid: balance.SaltBrine(y.r.Band.Target), Amount: float64(1 - share)},
			{Liquid: o.liquid, Amount: float64(share)},
		},
		Temperature: y.r.Temperature, Volume: v, Instrument: gauge.PercentGlass(),
	})
}

// liquidNames lists what a route can take.
func (y *stormYard) liquidNames() string {
	names := []string{balance.BrineName}
	for _, o := range y.others {
		names = append(names, o.name)
	}
	for _, b := range y.r.Blends {
		names = append(names, b.Name)
	}
	slices.Sort(names)
	return words.Joined(names, "none")
}
