package brine

import (
	"cmp"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

// Additive is what is added to correct a tank.
type Additive int

// The additives. AnyAdditive stands for water where the tank is too strong, and for salt
// where it is too weak.
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
	Stock       quantity.Strength // of the stored brine, for AddStock
	RockSalt    yard.RockSalt
	Instrument  gauge.Instrument // for the reading to expect
	// Sure is what makes Strength unsure, and VolumeHalf how far Volume may be off, spread evenly.
	Sure       sure.Budget
	VolumeHalf quantity.Volume
}

// Correction is what brings a tank to target. The masses balance exactly: tank
// less what is drawn off, plus what is added, is what results.
type Correction struct {
	Additive     Additive // AnyAdditive when nothing is needed
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
	// Adds is what 1 kg of the additive brings to the tank.
	Adds balance.Addition
	// Solid is set when the tank would hold ice or salt crystals as it stands.
	Solid bool
	// WholeFinal is the volume that would result without drawing off.
	WholeFinal quantity.Volume
	// Share is the range of the right amount, as parts of what is added: 1 to 1 where nothing
	// makes it unsure.
	Share Span[float64]
	// Sure is what makes the amount unsure, as parts of it.
	Sure sure.Budget
}

// Correct returns what to add. Errors: InputError for what cannot be (a tank
// stronger than saturation, a target that the additive moves away from).
//
// The mass to add is that of balance.Addition.Dose; volumes follow from the densities
// at the tank's temperature.
func Correct(r CorrectRequest) (Correction, error) {
	tank, err := balance.Know(fault.FieldStrength, r.Strength, r.Temperature)
	if err := cmp.Or(r.checkVolume(), err); err != nil {
		return Correction{}, err
	}
	return CorrectKnown(r, tank)
}

// CorrectKnown is Correct for brine that is known already: strength and temperature are
// those of the brine, whatever the request says.
func CorrectKnown(r CorrectRequest, tank balance.Known) (Correction, error) {
	r.Strength, r.Temperature = tank.Strength, tank.Temperature
	target, err := balance.KnowTarget(r.Target, r.Temperature)
	if err := cmp.Or(r.checkVolume(), err); err != nil {
		return Correction{}, err
	}
	return r.correct(tank, target)
}

// correct is for a tank that was checked, and a target.
func (r CorrectRequest) correct(tank, target balance.Known) (Correction, error) {
	stock, err := r.stock()
	if err := cmp.Or(err, r.RockSalt.Check()); err != nil {
		return Correction{}, err
	}
	c := Correction{Strength: r.Target, TankDensity: tank.Density, EndDensity: target.Density, Solid: tank.PartSolid()}
	if c.Reading, err = shown(r.Instrument, target.Density, r.Temperature); err != nil {
		return Correction{}, err
	}
	if c.Additive, err = r.additive(); err != nil {
		return Correction{}, err
	}
	switch c.Additive {
	case AnyAdditive:
		c.Strength, c.EndDensity, c.Final, c.WholeFinal = r.Strength, tank.Density, r.Volume, r.Volume
		return c, nil
	case AddWater:
		c.Adds, c.AddDensity = balance.Water(), balance.BrineDensity(0, r.Temperature)
	case AddStock:
		c.Adds, c.AddDensity = balance.Stock(r.Stock), stock.Density
	case AddSalt:
		c.Adds = r.RockSalt.Addition()
	}
	c.dose(r)
	c.spread(r)
	return c, nil
}

// spread finds how well the amount is known: it is worked out again for both ends of the strength, none
// of this additive being needed beyond the target, and widened by what is not known of the volume.
func (c *Correction) spread(r CorrectRequest) {
	c.Share = Span[float64]{1, 1}
	dose, _ := c.weigh(r)
	half, volume := r.Sure.Half(), sure.Part{Name: PartStick, Half: float64(r.VolumeHalf / r.Volume)}
	if !(dose > 0) || half == 0 && volume.Half == 0 {
		return
	}
	low, high := 1.0, 1.0
	if half > 0 {
		ends := [2]float64{}
		for i, w := range []float64{max(0, float64(r.Strength)-half), min(solution.MaxSolute, float64(r.Strength)+half)} {
			at := r
			at.Strength = quantity.Strength(w)
			beside := *c
			beside.TankDensity = balance.BrineDensity(at.Strength, r.Temperature)
			mass, _ := beside.weigh(at)
			ends[i] = max(0, float64(mass/dose))
		}
		low, high = min(ends[0], ends[1]), max(ends[0], ends[1])
		c.Sure = r.Sure.Times((high - low) / 2 / half)
	}
	strengths := c.Sure.Half()
	c.Sure = c.Sure.And(volume)
	if volume.Half > 0 {
		wider := c.Sure.Half() - strengths
		low, high = max(0, low-wider), high+wider
	}
	c.Share = Span[float64]{low, high}
}

// weigh returns what is added, scaled to what fits the tank, and the volume that would result without
// drawing off.
func (c *Correction) weigh(r CorrectRequest) (dose quantity.Mass, whole quantity.Volume) {
	mass := r.Volume.Mass(c.TankDensity)
	dose = c.Adds.Dose(mass, r.Strength, r.Target)
	whole = (mass + c.Adds.Brings(dose).Mass).Volume(c.EndDensity)
	if r.Capacity > 0 && whole > r.Capacity {
		dose *= quantity.Mass(r.Capacity / whole)
	}
	return dose, whole
}

// dose sets the amounts, scaled to what fits the tank.
func (c *Correction) dose(r CorrectRequest) {
	dose, whole := c.weigh(r)
	c.Final, c.WholeFinal = whole, whole
	if r.Capacity > 0 && whole > r.Capacity {
		c.Final = r.Capacity
		c.DrawOffFirst = quantity.Volume(float64(r.Volume) * (1 - float64(r.Capacity/whole)))
	}
	switch c.Additive {
	case AddWater:
		c.Water = dose.Volume(c.AddDensity)
	case AddStock:
		c.Stock = dose.Volume(c.AddDensity)
	case AddSalt:
		c.Salt = dose
		c.Insoluble = quantity.Mass(r.RockSalt.Insoluble() * float64(dose))
	}
}

// additive chooses, or refuses, what is added.
func (r CorrectRequest) additive() (Additive, error) {
	off := float64(r.Strength - r.Target)
	if math.Abs(off) < yard.OnTarget {
		return AnyAdditive, nil
	}
	strong, stock := off > 0, r.With == AddStock
	err := cmp.Or(
		fault.If(r.With == AddWater && !strong, fault.FieldWith,
			"water makes a weak tank weaker: it holds %v and is to hold %v; allowed: salt, or stock above %v", r.Strength, r.Target, r.Target),
		fault.If(r.With == AddSalt && strong, fault.FieldWith,
			"salt makes a strong tank stronger: it holds %v and is to hold %v; allowed: water, or stock below %v", r.Strength, r.Target, r.Target),
		fault.If(stock && strong && r.Stock >= r.Target, fault.FieldStock,
			"cannot weaken %v to %v; allowed: stock below %v", r.Strength, r.Target, r.Target),
		fault.If(stock && !strong && r.Stock <= r.Target, fault.FieldStock,
			"cannot strengthen %v to %v; allowed: stock above %v", r.Strength, r.Target, r.Target),
	)
	switch {
	case err != nil, r.With != AnyAdditive:
		return r.With, err
	case strong:
		return AddWater, nil
	}
	return AddSalt, nil
}

// stock returns the stored brine, where there is any.
func (r CorrectRequest) stock() (balance.Known, error) {
	if r.Stock == 0 && r.With != AddStock {
		return balance.Known{}, nil
	}
	return balance.Know(fault.FieldStock, r.Stock, r.Temperature)
}

// checkVolume refuses a temperature of no brine and a volume that cannot be in the tank.
func (r CorrectRequest) checkVolume() error {
	return cmp.Or(
		fault.CheckTemperature(fault.FieldTemperature, r.Temperature),
		fault.If(!(r.Volume > 0), fault.FieldVolume, "there is nothing to correct; allowed: above 0"),
		fault.If(r.Capacity > 0 && r.Volume > r.Capacity, fault.FieldVolume, "the tank cannot hold that; allowed: up to %v", r.Capacity),
	)
}
