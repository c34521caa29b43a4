package brine

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// Undissolved is the room (m3) that a batch takes at its most: water, heel and all salt that is loaded, none of it
// dissolved yet; or the brine with the bed that stays, where that is more.
func (b Batch) Undissolved(r BatchRequest) quantity.Volume {
	dry := 1 - r.RockSalt.Moisture
	loaded := b.Water + r.HeelVolume + (b.SaltToLoad.Times(dry)).Volume(balance.SolidSalt) + b.SaltWater.Volume(b.WaterDensity)
	return max(loaded, r.Volume+r.Bed.Times(dry).Volume(balance.SolidSalt))
}

// CheckRoom refuses a batch that overflows its tank before its salt has dissolved, with the volume of brine that fits, and
// a bed that the floor cannot hold. Errors: InputError.
func (b Batch) CheckRoom(r BatchRequest) error {
	if r.BedCapacity > 0 && r.Bed > r.BedCapacity {
		return fault.Input(fault.FieldBed, "the floor holds %v; allowed: up to that", r.BedCapacity)
	}
	takes := b.Undissolved(r)
	if r.Capacity == 0 || takes <= r.Capacity {
		return nil
	}
	// What a volume of brine more takes, as water and salt apart.
	w := float64(r.Target)
	each := float64(b.BrineDensity) * ((1-w)/float64(b.WaterDensity) + w/float64(balance.SolidSalt))
	fits := float64(r.Volume) - float64(takes-r.Capacity)/math.Max(1, each)
	if fits <= float64(r.HeelVolume) {
		return fault.Input(fault.FieldVolume, "before the salt dissolves it takes %v in a tank of %v; allowed: a smaller bed, or less heel", takes, r.Capacity)
	}
	return fault.Input(fault.FieldVolume, "before the salt dissolves it takes %v in a tank of %v; allowed: up to about %v of brine", takes, r.Capacity, quantity.Volume(fits))
}
