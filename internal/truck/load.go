package truck

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// usualSpeed is that of a truck whose speed is not known. Common practice, no source.
const usualSpeed = 30 * quantity.MilePerHour

// SpeedOf returns the speed of a truck while it sprays and on the way: its own, or the usual
// 30 mph.
func SpeedOf(t yard.Truck) quantity.Speed {
	if t.Speed > 0 {
		return t.Speed
	}
	return usualSpeed
}

// Fits returns the volume that a truck may carry where each volume weighs rho: its whole
// tank, or what its gross limit leaves above the margin, and then byWeight is true. Without a gross limit the
// tank alone counts; a truck over its limit when empty carries nothing.
func Fits(t yard.Truck, rho quantity.Density, margin quantity.Mass) (v quantity.Volume, byWeight bool) {
	if t.Gross > 0 {
		if most := (t.Gross - t.Empty - margin).Volume(rho); most < t.Tank {
			return max(0, most), true
		}
	}
	return t.Tank, false
}

// Load is what fits the truck.
type Load struct {
	Known   bool // false where the tank is not known
	Volume  quantity.Volume
	Weight  quantity.Mass // of the liquid
	Total   quantity.Mass // with the truck; 0 when the weights are not known
	Weighed bool          // the weight limit, not the tank, is what limits it
	Left    quantity.Mass // below the gross limit
	Time    quantity.Duration
	Loads   int // for Haul
	LastOne quantity.Volume
}

// load fills the tank as far as the weight allows.
func (r Request) load(rho quantity.Density) Load {
	if r.Tank <= 0 {
		return Load{}
	}
	l := Load{Known: true}
	l.Volume, l.Weighed = Fits(yard.Truck{Tank: r.Tank, Empty: r.Empty, Gross: r.Gross}, rho, r.Margin)
	l.Weight = l.Volume.Mass(rho)
	if r.Gross > 0 {
		l.Total = r.Empty + l.Weight
		l.Left = r.Gross - l.Total
	}
	if r.LoadFlow > 0 {
		l.Time = l.Volume.Over(r.LoadFlow)
	}
	if r.Haul > 0 {
		// A remainder of rounding is no load of its own.
		l.Loads = int(math.Ceil(float64(r.Haul/l.Volume) - 1e-9))
		l.LastOne = r.Haul - quantity.Volume(l.Loads-1)*l.Volume
	}
	return l
}
