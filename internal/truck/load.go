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

// Limit is what limits a load.
type Limit string

// The limits.
const (
	ByTank  Limit = "tank"
	ByGross Limit = "gross limit"
	ByFront Limit = "front axle"
	ByRear  Limit = "rear axle"
)

// Fits returns the volume that a truck may carry where each volume weighs rho, and what limits it: its whole
// tank, what its gross limit leaves above the margin, or what an axle's does, of which the margin is kept by the part that
// its limit has of both. Without limits the tank alone counts; a truck over one when empty carries nothing.
func Fits(t yard.Truck, rho quantity.Density, margin quantity.Mass) (v quantity.Volume, by Limit) {
	v, by = t.Tank, ByTank
	least := func(most quantity.Mass, limit Limit) {
		if volume := max(0, most.Volume(rho)); volume < v {
			v, by = volume, limit
		}
	}
	if t.Gross > 0 {
		least(t.Gross-t.Empty-margin, ByGross)
	}
	if a := t.Axles; a != nil {
		kept := margin.Times(quantity.Strength(a.FrontLimit / (a.FrontLimit + a.RearLimit)))
		if front := a.Front(); front > 0 {
			least((a.FrontLimit-a.FrontEmpty-kept)/quantity.Mass(front), ByFront)
		}
		if rear := 1 - a.Front(); rear > 0 {
			least((a.RearLimit-(t.Empty-a.FrontEmpty)-(margin-kept))/quantity.Mass(rear), ByRear)
		}
	}
	return v, by
}

// Load is what fits the truck.
type Load struct {
	Known   bool // false where the tank is not known
	Volume  quantity.Volume
	Weight  quantity.Mass // of the liquid
	Total   quantity.Mass // with the truck; 0 when the weights are not known
	By      Limit         // what limits it
	Weighed bool          // a limit of weight, and not the tank
	// Front and Rear are what the axles then carry; 0 when the axles are not known.
	Front, Rear quantity.Mass
	Left        quantity.Mass // below the gross limit
	Time        quantity.Duration
	Loads       int // for Haul
	LastOne     quantity.Volume
}

// load fills the tank as far as the weight allows.
func (r Request) load(rho quantity.Density) Load {
	if r.Tank <= 0 {
		return Load{}
	}
	l := Load{Known: true}
	l.Volume, l.By = Fits(yard.Truck{Tank: r.Tank, Empty: r.Empty, Gross: r.Gross, Axles: r.Axles}, rho, r.Margin)
	l.Weighed = l.By != ByTank
	l.Weight = l.Volume.Mass(rho)
	if a := r.Axles; a != nil {
		l.Front = a.FrontEmpty + quantity.Mass(a.Front())*l.Weight
		l.Rear = r.Empty + l.Weight - l.Front
	}
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
