package brine

import (
	"cmp"
	"errors"
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
	"brineyard/internal/yard"
)

// BatchRequest asks what goes into a mixing tank for a batch of NaCl brine.
type BatchRequest struct {
	Volume       quantity.Volume   // of brine wanted in the tank, heel counted
	Target       quantity.Strength // true strength
	HeelVolume   quantity.Volume   // of brine that stands in the tank already
	HeelStrength quantity.Strength
	HeelTemp     quantity.Temperature
	// HeelVolumeHalf is how far HeelVolume may be off either way, spread evenly, and HeelSure what makes
	// HeelStrength unsure.
	HeelVolumeHalf quantity.Volume
	HeelSure       sure.Budget
	WaterTemp      quantity.Temperature // of the fresh water and the salt
	RockSalt       yard.RockSalt
	Bed            quantity.Mass // salt, as delivered, to be left undissolved
	Supply         quantity.Flow // of fresh water; 0 when not known
	// WaterTank is the fresh-water tank that the supply refills, full when the batch begins, and WaterFlow what comes out
	// of it; 0 for none.
	WaterTank quantity.Volume
	WaterFlow quantity.Flow
	// PumpOff is what is taken out each time; 0 for all but the heel.
	PumpOff quantity.Volume
	// BedCapacity is the salt that the floor holds; 0 when not known.
	BedCapacity quantity.Mass
	Capacity    quantity.Volume
	Instrument  gauge.Instrument
}

// Batch is what goes in and what results. NaCl and water balance exactly.
type Batch struct {
	SaltToLoad    quantity.Mass // as delivered, bed included
	SaltToUse     quantity.Mass // as delivered, the part that dissolves
	SaltDissolved quantity.Mass // NaCl
	Insolubles    quantity.Mass // sludge from the salt that dissolves
	Water         quantity.Volume
	WaterMass     quantity.Mass
	SaltWater     quantity.Mass // moisture that comes with the salt
	BrineMass     quantity.Mass
	BrineTemp     quantity.Temperature
	BrineDensity  quantity.Density // at BrineTemp
	WaterDensity  quantity.Density // at WaterTemp
	HeelMass      quantity.Mass
	Cooling       quantity.Difference // by dissolving, against mixing alone
	Reading       float64             // what Instrument shows at BrineTemp
	FillTime      quantity.Duration   // 0 when Supply is not known
	PumpedOff     quantity.Volume     // what a batch gives each time
	Recharge      quantity.Mass       // salt as delivered for each PumpedOff
	RechargeWater quantity.Volume     // fresh water for each PumpedOff
	RechargeTime  quantity.Duration   // 0 when Supply is not known
	FirstSolid    solution.Onset
}

// NewBatch sizes a batch. Errors: InputError.
//
// Balance, by mass, with M = volume x density at the temperature that results:
//
//	NaCl  = M wt - heel x heel strength
//	water = M (1 - wt) - heel x (1 - heel strength) - moisture of all salt loaded
//	salt  = NaCl / (purity (1 - moisture))
func NewBatch(r BatchRequest) (Batch, error) {
	target, heel, err := r.check()
	if err != nil {
		return Batch{}, err
	}
	b := Batch{
		HeelMass:     r.HeelVolume.Mass(heel.Density),
		WaterDensity: balance.BrineDensity(0, r.WaterTemp),
		FirstSolid:   target.First(),
	}
	h, err := r.heats()
	if err != nil {
		return Batch{}, err
	}
	// The volume is wanted at the batch's own temperature, and that depends on the masses.
	if err := settle(float64(r.WaterTemp), func(t float64) float64 {
		b.fill(r, target.At(quantity.Temperature(t)))
		b.cool(r, h)
		return float64(b.BrineTemp)
	}); err != nil {
		return Batch{}, err
	}
	if err := b.refuse(r, target.At(b.BrineTemp)); err != nil {
		return Batch{}, err
	}
	return b, b.describe(r)
}

// A batch has settled when a round moves its temperature by less than residual (K): the
// weight of the brine is then exact to 1e-13. A round divides the error by 20 or more, so
// that mostRounds is never reached.
const (
	residual   = 1e-10
	mostRounds = 30
)

var errUnsettled = errors.New("the temperature that the batch comes to does not settle")

// settle repeats a step from a start until its result moves by less than the residual.
func settle(x float64, step func(float64) float64) error {
	for range mostRounds {
		next := step(x)
		if math.Abs(next-x) < residual {
			return nil
		}
		x = next
	}
	return errUnsettled
}

// fill balances salt and water for brine at the temperature reached so far.
func (b *Batch) fill(r BatchRequest, brine balance.Known) {
	b.BrineDensity = brine.Density
	b.BrineMass = r.Volume.Mass(b.BrineDensity)
	heel := balance.MassesOf(balance.SaltBrine(r.HeelStrength), b.HeelMass)
	goesIn := balance.MassesOf(balance.SaltBrine(r.Target), b.BrineMass).Minus(heel)
	b.SaltDissolved = quantity.Mass(goesIn.NaCl)
	b.SaltToUse = quantity.Mass(goesIn.NaCl / r.RockSalt.SodiumChloride())
	b.SaltToLoad = b.SaltToUse + r.Bed
	b.Insolubles = quantity.Mass(r.RockSalt.Insoluble() * float64(b.SaltToUse))
	b.SaltWater = b.SaltToLoad.Times(r.RockSalt.Moisture)
	b.WaterMass = quantity.Mass(goesIn.Water) - b.SaltWater
	b.Water = b.WaterMass.Volume(b.WaterDensity)
}

// heats are the heats taken up by dissolving at the water's temperature (J/kg) and the heat
// capacities (J/(kg K)) of brine on target and of the heel.
type heats struct{ taken, takenHeel, capacity, heelCapacity float64 }

func (r BatchRequest) heats() (heats, error) {
	start, target, heel := float64(r.WaterTemp), solution.Brine(float64(r.Target)), solution.Brine(float64(r.HeelStrength))
	taken, err1 := solution.HeatTaken(target, start)
	takenHeel, err2 := solution.HeatTaken(heel, start)
	capacity, err3 := solution.HeatCapacity(target, start)
	heelCapacity, err4 := solution.HeatCapacity(heel, float64(r.HeelTemp))
	return heats{taken, takenHeel, capacity, heelCapacity}, cmp.Or(err1, err2, err3, err4)
}

// cool finds the temperature after mixing and dissolving, with no heat from outside: the
// heel's heat, less the heat that dissolving takes up, spread over the brine.
func (b *Batch) cool(r BatchRequest, h heats) {
	taken := float64(b.BrineMass)*h.taken - float64(b.HeelMass)*h.takenHeel
	brought := float64(b.HeelMass) * h.heelCapacity * float64(r.HeelTemp-r.WaterTemp)
	spread := float64(b.BrineMass) * h.capacity
	b.Cooling = quantity.Difference(taken / spread)
	b.BrineTemp = r.WaterTemp + quantity.Temperature((brought-taken)/spread)
}

// refuse refuses a batch without room for salt or water, and one that does not stay
// dissolved at its own temperature.
func (b *Batch) refuse(r BatchRequest, brine balance.Known) error {
	if err := cmp.Or(
		fault.If(b.SaltDissolved < 0, fault.FieldHeelStrong,
			"the heel alone holds more salt than the batch is to hold; allowed: a weaker or smaller heel, or a stronger target than %v", r.Target),
		fault.If(b.WaterMass < 0 && r.HeelVolume == 0, fault.FieldBed,
			"the moisture of so much salt is more water than the batch is to hold; allowed: a smaller bed than %v, or drier salt", r.Bed),
		fault.If(b.WaterMass < 0, fault.FieldHeelVolume,
			"heel and wet salt bring more water than the batch is to hold; allowed: a smaller heel than %v", r.HeelVolume),
		fault.If(brine.PartSolid(), fault.FieldTarget,
			"the batch cools to %v, where brine this strong is part solid; allowed: warmer water or heel", b.BrineTemp),
	); err != nil || !brine.DropsSalt() {
		return err
	}
	full, err := balance.Saturation(b.BrineTemp)
	if err != nil {
		return err
	}
	return fault.If(r.Target > full, fault.FieldTarget,
		"the batch cools to %v, where brine is saturated at %v; allowed: up to that", b.BrineTemp, full)
}

// FreshWater is where the water of the batch comes from.
func (r BatchRequest) FreshWater() yard.Supply {
	return yard.Supply{Flow: r.Supply, Tank: r.WaterTank, TankFlow: r.WaterFlow}
}

// describe fills in times, recharge and reading.
func (b *Batch) describe(r BatchRequest) error {
	b.PumpedOff = r.Volume - r.HeelVolume
	if r.PumpOff > 0 {
		b.PumpedOff = min(r.PumpOff, r.Volume)
	}
	pumped := b.PumpedOff.Mass(b.BrineDensity)
	b.Recharge = quantity.Mass(float64(pumped.Times(r.Target)) / r.RockSalt.SodiumChloride())
	wet := b.Recharge.Times(r.RockSalt.Moisture)
	b.RechargeWater = (pumped.Times(1-r.Target) - wet).Volume(b.WaterDensity)
	supply := r.FreshWater()
	b.FillTime, b.RechargeTime = supply.FillTime(b.Water), supply.FillTime(b.RechargeWater)
	var err error
	b.Reading, err = shown(r.Instrument, b.BrineDensity, b.BrineTemp)
	return err
}

// check refuses what is no batch, and returns brine on target at the water's temperature,
// and the heel.
func (r BatchRequest) check() (target, heel balance.Known, err error) {
	target, noTarget := balance.KnowTarget(r.Target, r.WaterTemp)
	heel, noHeel := balance.Know(fault.FieldHeelStrong, r.HeelStrength, r.HeelTemp)
	return target, heel, cmp.Or(
		fault.CheckTemperature(fault.FieldWaterTemp, r.WaterTemp),
		fault.If(r.WaterTemp < quantity.Celsius(0), fault.FieldWaterTemp,
			"fresh water is ice there; allowed: %v to %v", quantity.Celsius(0), fault.Hottest),
		noTarget,
		fault.CheckTemperature(fault.FieldHeelTemp, r.HeelTemp),
		fault.If(!(r.Volume > 0 && !math.IsInf(float64(r.Volume), 0)), fault.FieldVolume, "no batch; allowed: above 0"),
		fault.If(r.Capacity > 0 && r.Volume > r.Capacity, fault.FieldVolume, "the tank cannot hold that; allowed: up to %v", r.Capacity),
		fault.If(!(r.HeelVolume >= 0), fault.FieldHeelVolume, "less than zero; allowed: 0 and above"),
		fault.If(r.HeelVolume >= r.Volume, fault.FieldHeelVolume, "the heel leaves no room for a batch; allowed: below %v", r.Volume),
		noHeel,
		fault.If(r.HeelVolume > 0 && heel.PartSolid(), fault.FieldHeelTemp,
			"a heel of %v is part solid there; allowed: from %v", r.HeelStrength, quantity.Temperature(heel.First().Temperature)),
		r.RockSalt.Check(),
	)
}
