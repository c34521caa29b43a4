package drill

import (
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Shop is the part of a yard that problems are made from. Zero means unknown.
type Shop struct {
	Tanks       []yard.Tank
	Band        yard.Band
	Calibration quantity.Temperature // for which the hydrometer is marked
	Glass       string               // the yard's own name of it; empty for none
	Division    float64              // between its marks; 0 where it is not said
	RockSalt    yard.RockSalt
	Bucket      quantity.Mass // one load of the loader
	Liquids     []yard.Liquid
	Trucks      []yard.Truck
	PumpFlow    quantity.Flow
	Plumbing    yard.Plumbing
}

// filled puts the default shop's values in the place of unknown ones. It takes equipment from
// there only where there is none at all, since a yard without a truck has no use for problems about one.
func (s Shop) filled() Shop {
	d := DefaultShop()
	if len(s.Tanks)+len(s.Trucks)+len(s.Plumbing.Links) == 0 {
		s.Tanks, s.Trucks, s.Plumbing = d.Tanks, d.Trucks, d.Plumbing
	}
	if s.Band == (yard.Band{}) {
		s.Band = d.Band
	}
	if s.RockSalt == (yard.RockSalt{}) {
		s.RockSalt = d.RockSalt
	}
	if s.Calibration == 0 {
		s.Calibration = d.Calibration
	}
	if s.Bucket == 0 {
		s.Bucket = d.Bucket
	}
	if s.PumpFlow == 0 {
		s.PumpFlow = d.PumpFlow
	}
	return s
}

// takes reports whether fresh water, or what stands in the tank from, may be pumped into a tank: water
// into a mixing tank, and like to like. What a tank of the plumbing holds is known where the yard
// has the tank.
func (s Shop) takes(to, from string) bool {
	into, known := s.tank(to)
	if !known {
		return true // an outlet
	}
	if from == yard.FreshWater {
		return into.Mixing
	}
	out, known := s.tank(from)
	return !known || into.LiquidName == out.LiquidName && into.HoldsBrine() == out.HoldsBrine()
}

func (s Shop) tank(name string) (yard.Tank, bool) {
	for _, t := range s.Tanks {
		if t.Name == name {
			return t, true
		}
	}
	return yard.Tank{}, false
}

// tanks lists all of salt brine that can hold enough for a sum. The working volume of a storage tank is
// its capacity.
func (s Shop) tanks() []yard.Tank {
	all := s.mixers()
	for _, t := range s.Tanks {
		if !t.Mixing && t.HoldsBrine() && t.Capacity >= smallest {
			t.WorkingVolume = t.Capacity
			all = append(all, t)
		}
	}
	return all
}

// mixers lists the mixing tanks that can hold enough for a sum. Where the file does not say,
// the working volume is the capacity.
func (s Shop) mixers() []yard.Tank {
	var all []yard.Tank
	for _, m := range s.Tanks {
		if m.WorkingVolume == 0 || m.WorkingVolume > m.Capacity {
			m.WorkingVolume = m.Capacity
		}
		if m.Mixing && m.WorkingVolume >= smallest {
			all = append(all, m)
		}
	}
	return all
}

// salted lists the tanks in which salt is dissolved: the mixing tanks, and the others where there is none.
func (s Shop) salted() []yard.Tank {
	if mixers := s.mixers(); len(mixers) > 0 {
		return mixers
	}
	return s.tanks()
}

// haulers lists the trucks with a tank and known weights.
func (s Shop) haulers() []yard.Truck {
	var all []yard.Truck
	for _, t := range s.Trucks {
		if t.Tank >= smallest && t.Empty > 0 && t.Gross > t.Empty {
			all = append(all, t)
		}
	}
	return all
}

// smallest is the least tank that round numbers can be drawn for.
const smallest = 100 * quantity.Gallon
