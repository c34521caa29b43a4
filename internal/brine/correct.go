package brine

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Additive is what is added to correct a tank.
type Additive int

// The agents. Auto takes water where the tank is too strong and salt where it is
// too weak.
const (
	AnyAdditive Additive = iota
	AddWater
	AddSalt
	AddStock
)

// CorrectRequest asks how a tank of NaCl brine is brought to target.
type CorrectRequest struct {
	Volume      quantity.Volume   // in the tank now
	Strength    quantity.Strength // true strength now
	Target      quantity.Strength
	Temperature quantity.Temperature // of the tank; what is added is taken to be as warm
	Capacity    quantity.Volume      // what the tank may hold; 0 when not known
	With        Additive
	Stock       quantity.Strength // of the stored brine, for Stock
	RockSalt    yard.RockSalt
	Instrument  gauge.Instrument // for the reading to expect
}

// Correction is what brings a tank to target. The masses balance exactly: tank
// less what is drawn off, plus what is added, is what results.
type Correction struct {
	Additive     Additive // Water, Salt or Stock; Auto when nothing is needed
	Water        quantity.Volume
	Salt         quantity.Mass // as delivered
	Stock        quantity.Volume
	DrawOffFirst quantity.Volume // draw this much off before adding
	Final        quantity.Volume
	Strength     quantity.Strength // what results
	Reading      float64           // what Instrument then shows at Temperature
	TankDensity  quantity.Density
	AddDensity   quantity.Density // of water or stock; 0 for salt
	EndDensity   quantity.Density
	Insoluble    quantity.Mass // sludge that comes with the salt
	// Solid is set when the tank would hold ice or salt crystals as it stands.
	Solid bool
	// WholeFinal is the volume that would result without drawing off.
	WholeFinal quantity.Volume
}

// Correct returns what to add. Errors: InputError for what cannot be (a tank
// stronger than saturation, a target that the agent moves away from).
//
// Balance, by mass: with m the brine in the tank, w its strength, wt the target,
//
//	water  = m (w/wt - 1)
//	salt   = m (wt - w) / (a - wt (a + u)), a and u the NaCl and the water in 1 kg
//	stock  = m (wt - w) / (ws - wt)
//
// and volumes from the densities at the tank's temperature.
func Correct(r CorrectRequest) (Correction, error) {
	if err := r.check(); err != nil {
		return Correction{}, err
	}
	tank, end := balance.BrineDensity(r.Strength, r.Temperature), balance.BrineDensity(r.Target, r.Temperature)
	c := Correction{Strength: r.Target, TankDensity: tank, EndDensity: end}
	first, err := balance.FirstSolid(r.Strength)
	if err != nil {
		return Correction{}, err
	}
	c.Solid = balance.PartSolid(r.Temperature, first)
	if c.Reading, err = Expected(r.Instrument, r.Target, r.Temperature); err != nil {
		return Correction{}, err
	}
	if c.Additive, err = r.additive(); err != nil {
		return Correction{}, err
	}
	if c.Additive == AnyAdditive {
		c.Strength, c.EndDensity, c.Final, c.WholeFinal = r.Strength, tank, r.Volume, r.Volume
		return c, nil
	}
	perKilogram := r.add(&c)
	mass := r.Volume.Mass(tank)
	c.WholeFinal = quantity.Mass(float64(mass) * perKilogram.total).Volume(end)
	c.Final = c.WholeFinal
	share := 1.0
	if r.Capacity > 0 && c.WholeFinal > r.Capacity {
		share = float64(r.Capacity / c.WholeFinal)
		c.Final = r.Capacity
		c.DrawOffFirst = quantity.Volume(float64(r.Volume) * (1 - share))
	}
	c.scale(quantity.Mass(share*float64(mass)), perKilogram)
	c.Insoluble = quantity.Mass(r.RockSalt.Insoluble() * float64(c.Salt))
	return c, nil
}

// addition is what goes to one kg of tank brine, and what there is then, in kg
// (of liquid: insoluble matter settles).
type addition struct{ water, salt, stock, total float64 }

// add works out the addition, and the density of what is added.
func (r CorrectRequest) add(c *Correction) addition {
	w, target := float64(r.Strength), float64(r.Target)
	var a addition
	switch c.Additive {
	case AddWater:
		c.AddDensity = balance.BrineDensity(0, r.Temperature)
		a.water = w/target - 1
		a.total = 1 + a.water
	case AddSalt:
		pure, moisture := r.RockSalt.SodiumChloride(), float64(r.RockSalt.Moisture)
		a.salt = (target - w) / (pure - target*(pure+moisture))
		a.total = 1 + a.salt*(pure+moisture)
	case AddStock:
		c.AddDensity = balance.BrineDensity(r.Stock, r.Temperature)
		a.stock = (target - w) / (float64(r.Stock) - target)
		a.total = 1 + a.stock
	}
	return a
}

// scale sets the amounts for the brine that stays in the tank.
func (c *Correction) scale(tank quantity.Mass, a addition) {
	part := func(x float64) quantity.Mass { return quantity.Mass(x * float64(tank)) }
	switch c.Additive {
	case AddWater:
		c.Water = part(a.water).Volume(c.AddDensity)
	case AddStock:
		c.Stock = part(a.stock).Volume(c.AddDensity)
	case AddSalt:
		c.Salt = part(a.salt)
	}
}

// additive chooses, or refuses, what is added.
func (r CorrectRequest) additive() (Additive, error) {
	off := float64(r.Strength - r.Target)
	if math.Abs(off) < yard.OnTarget {
		return AnyAdditive, nil
	}
	strong := off > 0
	switch r.With {
	case AddWater:
		if !strong {
			return 0, fault.Input(fault.FieldWith, "water makes a weak tank weaker: it holds %v and is to hold %v; allowed: salt, or stock above %v",
				r.Strength, r.Target, r.Target)
		}
	case AddSalt:
		if strong {
			return 0, fault.Input(fault.FieldWith, "salt makes a strong tank stronger: it holds %v and is to hold %v; allowed: water, or stock below %v",
				r.Strength, r.Target, r.Target)
		}
	case AddStock:
		if strong && r.Stock >= r.Target {
			return 0, fault.Input(fault.FieldStock, "cannot weaken %v to %v; allowed: stock below %v", r.Strength, r.Target, r.Target)
		}
		if !strong && r.Stock <= r.Target {
			return 0, fault.Input(fault.FieldStock, "cannot strengthen %v to %v; allowed: stock above %v", r.Strength, r.Target, r.Target)
		}
	default:
		if strong {
			return AddWater, nil
		}
		return AddSalt, nil
	}
	return r.With, nil
}

func (r CorrectRequest) check() error {
	if err := fault.CheckTemperature(fault.FieldTemperature, r.Temperature); err != nil {
		return err
	}
	if !(r.Volume > 0) {
		return fault.Input(fault.FieldVolume, "there is nothing to correct; allowed: above 0")
	}
	if r.Capacity > 0 && r.Volume > r.Capacity {
		return fault.Input(fault.FieldVolume, "the tank cannot hold that; allowed: up to %v", r.Capacity)
	}
	if err := balance.CheckStrength(fault.FieldStrength, r.Strength, r.Temperature); err != nil {
		return err
	}
	if err := balance.CheckTarget(r.Target, r.Temperature); err != nil {
		return err
	}
	if err := balance.CheckStrength(fault.FieldStock, r.Stock, r.Temperature); err != nil {
		return err
	}
	return r.RockSalt.Check()
}

// Balance is the mass of brine and of NaCl in it.
type Balance struct{ Brine, SodiumChloride quantity.Mass }

// Balances returns what is in the tank before, what is drawn off, what is added
// (dissolving part alone) and what there is after, for a ledger or a test.
func (c Correction) Balances(r CorrectRequest) (before, drawn, added, after Balance) {
	of := func(v quantity.Volume, rho quantity.Density, s quantity.Strength) Balance {
		m := v.Mass(rho)
		return Balance{m, m.Times(s)}
	}
	before = of(r.Volume, c.TankDensity, r.Strength)
	drawn = of(c.DrawOffFirst, c.TankDensity, r.Strength)
	after = of(c.Final, c.EndDensity, c.Strength)
	switch c.Additive {
	case AddWater:
		added = of(c.Water, c.AddDensity, 0)
	case AddStock:
		added = of(c.Stock, c.AddDensity, r.Stock)
	case AddSalt:
		pure := r.RockSalt.SodiumChloride()
		added.SodiumChloride = quantity.Mass(pure * float64(c.Salt))
		added.Brine = quantity.Mass((pure + float64(r.RockSalt.Moisture)) * float64(c.Salt))
	}
	return before, drawn, added, after
}
