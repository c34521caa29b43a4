package brine

import (
	"math"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// CapabilityRequest is what a mixing tank works with. Zero means unknown; results that
// need it stay zero.
type CapabilityRequest struct {
	WorkingVolume quantity.Volume
	PumpOff       quantity.Volume
	MixTime       quantity.Duration
	Supply        quantity.Flow
	PumpFlow      quantity.Flow
	WaterTemp     quantity.Temperature
	Target        quantity.Strength
	RockSalt      yard.RockSalt
	Bucket, Pile  quantity.Mass
	SaltPrice     *quantity.PricePerMass
	CleanEvery    quantity.Volume
}

// Capability is what a mixing tank can do, batch after batch, the heel being left.
type Capability struct {
	PumpOff     quantity.Volume
	SaltABatch  quantity.Mass // as delivered
	Water       quantity.Volume
	Fill        quantity.Duration // of a recharge; 0 when not known
	PumpOffTime quantity.Duration
	Cycle       quantity.Duration // fill, mix and pump off; 0 when one is not known
	AnHour      quantity.Flow     // over whole cycles; 0 when not known
	Buckets     float64           // a batch
	Batches     int               // that the pile makes
	FromPile    quantity.Volume
	Clean       int // batches between cleanings; 0 when not known
	// The densities of brine and water, and the temperature of the brine.
	Density, WaterDensity quantity.Density
	BrineTemp             quantity.Temperature
	// SaltCost is for a volume of brine; Priced tells whether the price of salt is known.
	SaltCost quantity.PricePerVolume
	Priced   bool
}

// CanDo returns what a mixing tank can do. Errors: InputError.
func CanDo(r CapabilityRequest) (Capability, error) {
	b, err := NewBatch(BatchRequest{
		Volume: r.WorkingVolume, Target: r.Target, PumpOff: r.PumpOff, WaterTemp: r.WaterTemp, HeelTemp: r.WaterTemp,
		RockSalt: r.RockSalt, Supply: r.Supply,
		Instrument: gauge.PercentGlass(),
	})
	if err != nil {
		return Capability{}, err
	}
	p := Capability{PumpOff: b.PumpedOff, SaltABatch: b.Recharge, Water: b.RechargeWater, Fill: b.RechargeTime,
		Density: b.BrineDensity, WaterDensity: b.WaterDensity, BrineTemp: b.BrineTemp}
	if r.PumpFlow > 0 {
		p.PumpOffTime = p.PumpOff.Over(r.PumpFlow)
	}
	if p.Fill > 0 && p.PumpOffTime > 0 && r.MixTime > 0 {
		p.Cycle = p.Fill + r.MixTime + p.PumpOffTime
		p.AnHour = quantity.Flow(float64(p.PumpOff) / float64(p.Cycle))
	}
	if r.Bucket > 0 {
		p.Buckets = float64(p.SaltABatch / r.Bucket)
	}
	if r.Pile > 0 {
		p.Batches = int(math.Floor(float64(r.Pile/p.SaltABatch) + 1e-9))
		p.FromPile = quantity.Volume(p.Batches) * p.PumpOff
	}
	if r.CleanEvery > 0 {
		p.Clean = int(math.Floor(float64(r.CleanEvery/p.PumpOff) + 1e-9))
	}
	if r.SaltPrice != nil {
		p.SaltCost, p.Priced = quantity.PricePerVolume(float64(*r.SaltPrice)*float64(p.SaltABatch)/float64(p.PumpOff)), true
	}
	return p, nil
}

// SharedFlow returns what mixing tanks make with one pump and one supply between them:
// the sum of what each makes alone, bounded by the time that the pump (mixing and
// pumping off) and the supply take for it.
func SharedFlow(plants []Capability) quantity.Flow {
	sum, pump, supply := 0.0, 0.0, 0.0
	for _, p := range plants {
		if p.Cycle == 0 {
			continue
		}
		sum += float64(p.AnHour)
		pump += float64((p.Cycle - p.Fill) / p.Cycle)
		supply += float64(p.Fill / p.Cycle)
	}
	return quantity.Flow(sum / math.Max(1, math.Max(pump, supply)))
}
