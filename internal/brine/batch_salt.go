package brine

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// BatchOfSalt sizes the batch that a weight of rock salt makes, as delivered, which dissolves whole: it returns the request with
// the volume, and the batch. No bed is left of it. Errors: InputError, as those of NewBatch, and for salt that is none.
func BatchOfSalt(r BatchRequest, salt quantity.Mass) (BatchRequest, Batch, error) {
	r.Bed = 0
	if err := fault.If(!(salt > 0), fault.FieldSalt, "no salt; allowed: above 0"); err != nil {
		return r, Batch{}, err
	}
	if err := r.RockSalt.Check(); err != nil {
		return r, Batch{}, err
	}
	target, err := balance.KnowTarget(r.Target, r.WaterTemp)
	if err != nil {
		return r, Batch{}, err
	}
	// The salt grows with the volume in a straight line but for the density, which follows the batch's temperature: each
	// round finds the volume from the density of the last.
	capacity := r.Capacity
	r.Capacity = 0
	rho := target.Density
	known, err := balance.Know(fault.FieldHeelStrong, r.HeelStrength, r.HeelTemp)
	if err != nil {
		return r, Batch{}, err
	}
	heel := known.Density
	for range mostRounds {
		sodium := float64(r.HeelVolume.Mass(heel))*float64(r.HeelStrength) + float64(salt)*r.RockSalt.SodiumChloride()
		r.Volume = quantity.Mass(sodium / float64(r.Target)).Volume(rho)
		b, err := NewBatch(r)
		if err != nil {
			return r, b, err
		}
		if off := float64(b.SaltToUse - salt); math.Abs(off) < 1e-9*float64(salt) {
			return r, b, fault.If(capacity > 0 && r.Volume > capacity, fault.FieldSalt,
				"so much salt makes %v, and the tank holds %v; allowed: less salt", r.Volume, capacity)
		}
		rho = quantity.Density(float64(rho) * float64(b.SaltToUse/salt))
	}
	return r, Batch{}, errUnsettled
}
