package brine

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// BatchRequest asks what goes into a mixing tank for a batch of NaCl brine.
type BatchRequest struct {
	Volume       quantity.Volume   // of brine wanted in the tank, heel counted
	Target       quantity.Strength // true strength
	HeelVolume   quantity.Volume   // of brine that stands in the tank already
	HeelStrength quantity.Strength
	HeelTemp     quantity.Temperature
	WaterTemp    quantity.Temperature // of the fresh water and the salt
	RockSalt     yard.RockSalt
	Bed          quantity.Mass // salt, as delivered, to be left undissolved
	Supply       quantity.Flow // of fresh water; 0 when not known
	// PumpOff is what is taken out each time; 0 for all but the heel.
	PumpOff quantity.Volume
	// BedCapacity is the salt that the floor holds; 0 when not known.
	BedCapacity quantity.Mass
	Capacity    quantity.Volume
	Instrument  gauge.Instrument
}

// Batch is what goes in and what comes of it. NaCl and water balance exactly.
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
	if err := r.check(); err != nil {
		return Batch{}, err
	}
	b := Batch{BrineTemp: r.WaterTemp}
	// The volume is wanted at the temperature that the batch comes to, which
	// hangs on the masses: two rounds settle it, four leave nothing to see.
	for range 4 {
		b.fill(r)
		if err := b.cool(r); err != nil {
			return Batch{}, err
		}
	}
	b.fill(r)
	if err := b.refuse(r); err != nil {
		return Batch{}, err
	}
	return b, b.describe(r)
}

// fill balances salt and water for the brine temperature reached so far.
func (b *Batch) fill(r BatchRequest) {
	b.BrineDensity = balance.BrineDensity(r.Target, b.BrineTemp)
	b.WaterDensity = balance.BrineDensity(0, r.WaterTemp)
	b.HeelMass = r.HeelVolume.Mass(balance.BrineDensity(r.HeelStrength, r.HeelTemp))
	b.BrineMass = r.Volume.Mass(b.BrineDensity)
	b.SaltDissolved = b.BrineMass.Times(r.Target) - b.HeelMass.Times(r.HeelStrength)
	b.SaltToUse = quantity.Mass(float64(b.SaltDissolved) / r.RockSalt.SodiumChloride())
	b.SaltToLoad = b.SaltToUse + r.Bed
	b.Insolubles = quantity.Mass(r.RockSalt.Insoluble() * float64(b.SaltToUse))
	b.SaltWater = b.SaltToLoad.Times(r.RockSalt.Moisture)
	b.WaterMass = b.BrineMass.Times(1-r.Target) - b.HeelMass.Times(1-r.HeelStrength) - b.SaltWater
	b.Water = b.WaterMass.Volume(b.WaterDensity)
}

// cool finds the temperature that mixing and dissolving come to, with no heat
// from outside: heat of the heel, less what dissolving takes up, spread over the
// brine.
func (b *Batch) cool(r BatchRequest) error {
	start := float64(r.WaterTemp)
	target, heel := solution.Brine(float64(r.Target)), solution.Brine(float64(r.HeelStrength))
	takenBrine, err := solution.HeatTaken(target, start)
	if err != nil {
		return err
	}
	takenHeel, err := solution.HeatTaken(heel, start)
	if err != nil {
		return err
	}
	capacity, err := solution.HeatCapacity(target, start)
	if err != nil {
		return err
	}
	heelCapacity, err := solution.HeatCapacity(heel, float64(r.HeelTemp))
	if err != nil {
		return err
	}
	taken := float64(b.BrineMass)*takenBrine - float64(b.HeelMass)*takenHeel
	brought := float64(b.HeelMass) * heelCapacity * float64(r.HeelTemp-r.WaterTemp)
	spread := float64(b.BrineMass) * capacity
	b.Cooling = quantity.Difference(taken / spread)
	b.BrineTemp = quantity.Temperature(start + (brought-taken)/spread)
	return nil
}

// refuse names what of the request leaves no room for salt or water.
func (b *Batch) refuse(r BatchRequest) error {
	if b.SaltDissolved < 0 {
		return fault.Input(fault.FieldHeelStrong, "the heel alone holds more salt than the batch is to hold; allowed: a weaker or smaller heel, or a stronger target than %v", r.Target)
	}
	if b.WaterMass < 0 && r.HeelVolume == 0 {
		return fault.Input(fault.FieldBed, "the moisture of so much salt is more water than the batch is to hold; allowed: a smaller bed than %v, or drier salt", r.Bed)
	}
	if b.WaterMass < 0 {
		return fault.Input(fault.FieldHeelVolume, "heel and wet salt bring more water than the batch is to hold; allowed: a smaller heel than %v", r.HeelVolume)
	}
	first, err := balance.FirstSolid(r.Target)
	if err != nil {
		return err
	}
	if balance.PartSolid(b.BrineTemp, first) {
		return fault.Input(fault.FieldTarget, "the batch cools to %v, where brine this strong is part solid; allowed: warmer water or heel", b.BrineTemp)
	}
	if full, err := balance.Saturation(b.BrineTemp); err != nil {
		return err
	} else if r.Target > full {
		return fault.Input(fault.FieldTarget, "the batch cools to %v, where brine is saturated at %v; allowed: up to that", b.BrineTemp, full)
	}
	return nil
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
	if r.Supply > 0 {
		b.FillTime = b.Water.Over(r.Supply)
		b.RechargeTime = b.RechargeWater.Over(r.Supply)
	}
	var err error
	if b.Reading, err = Expected(r.Instrument, r.Target, b.BrineTemp); err != nil {
		return err
	}
	b.FirstSolid, err = balance.FirstSolid(r.Target)
	return err
}

func (r BatchRequest) check() error {
	if err := fault.CheckTemperature(fault.FieldWaterTemp, r.WaterTemp); err != nil {
		return err
	}
	if r.WaterTemp < quantity.Celsius(0) {
		return fault.Input(fault.FieldWaterTemp, "fresh water is ice there; allowed: %v to %v", quantity.Celsius(0), fault.Hottest)
	}
	if err := balance.CheckTarget(r.Target, r.WaterTemp); err != nil {
		return err
	}
	if err := fault.CheckTemperature(fault.FieldHeelTemp, r.HeelTemp); err != nil {
		return err
	}
	if !(r.Volume > 0 && !math.IsInf(float64(r.Volume), 0)) {
		return fault.Input(fault.FieldVolume, "no batch; allowed: above 0")
	}
	if r.Capacity > 0 && r.Volume > r.Capacity {
		return fault.Input(fault.FieldVolume, "the tank cannot hold that; allowed: up to %v", r.Capacity)
	}
	if !(r.HeelVolume >= 0) {
		return fault.Input(fault.FieldHeelVolume, "below nothing; allowed: 0 and above")
	}
	if r.HeelVolume >= r.Volume {
		return fault.Input(fault.FieldHeelVolume, "the heel leaves no room for a batch; allowed: below %v", r.Volume)
	}
	if err := balance.CheckStrength(fault.FieldHeelStrong, r.HeelStrength, r.HeelTemp); err != nil {
		return err
	}
	first, err := balance.FirstSolid(r.HeelStrength)
	if err != nil {
		return err
	}
	if r.HeelVolume > 0 && balance.PartSolid(r.HeelTemp, first) {
		return fault.Input(fault.FieldHeelTemp, "a heel of %v is part solid there; allowed: from %v", r.HeelStrength, quantity.Temperature(first.Temperature))
	}
	return r.RockSalt.Check()
}
