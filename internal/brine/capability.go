package brine

import (
	"cmp"
	"math"
	"slices"

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

// SharedFlow returns what mixing tanks make with one pump and one supply between them, at
// most: what those of TanksToRun make. Tanks without a cycle make nothing.
func SharedFlow(plants []Capability) quantity.Flow {
	return together(plants, TanksToRun(plants))
}

// mostTanks is the number of mixing tanks of which every choice is tried. Of more, those
// that make the most alone are tried: nobody runs so many on one pump.
const mostTanks = 12

// TanksToRun returns the places in the list of the mixing tanks that make the most with one
// pump and one supply between them. A slow tank can keep a faster one waiting for longer than
// its own brine is worth, and then it is not among them. It returns nil where no tank has a
// cycle.
func TanksToRun(plants []Capability) []int {
	var known []int
	for i, p := range plants {
		if p.Cycle > 0 {
			known = append(known, i)
		}
	}
	slices.SortStableFunc(known, func(a, b int) int { return cmp.Compare(plants[b].AnHour, plants[a].AnHour) })
	known = known[:min(len(known), mostTanks)]
	slices.Sort(known)
	best := known // of equal choices the one with all of them
	for choice := 1; choice < 1<<len(known)-1; choice++ {
		some := chosen(known, choice)
		if together(plants, some) > together(plants, best)*(1+1e-9) {
			best = some
		}
	}
	return best
}

// chosen returns the members of a list whose bits are set.
func chosen(list []int, bits int) []int {
	var some []int
	for i, x := range list {
		if bits>>i&1 == 1 {
			some = append(some, x)
		}
	}
	return some
}

// together returns what some tanks make: the sum of what each makes alone, bounded by the
// time that the pump (mixing and pumping off) and the supply take for it.
func together(plants []Capability, some []int) quantity.Flow {
	sum, pump, supply := 0.0, 0.0, 0.0
	for _, i := range some {
		p := plants[i]
		sum += float64(p.AnHour)
		pump += float64((p.Cycle - p.Fill) / p.Cycle)
		supply += float64(p.Fill / p.Cycle)
	}
	return quantity.Flow(sum / max(1, pump, supply))
}
