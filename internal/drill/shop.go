package drill

import (
	"slices"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Shop is what a yard has, as far as problems are made from it. What is 0 is not
// known.
type Shop struct {
	Tanks       []yard.Tank
	Band        yard.Band
	Calibration quantity.Temperature // for which the hydrometer is marked
	RockSalt    yard.RockSalt
	Bucket      quantity.Mass // one load of the loader
	Liquids     []yard.Liquid
	Trucks      []yard.Truck
	PumpFlow    quantity.Flow
	Plumbing    yard.Plumbing
}

// Topics lists the topics that the shop has the equipment for.
func (s Shop) Topics() []Topic {
	s = s.filled()
	have := map[Topic]bool{
		Strong: len(s.tanks()) > 0, Weak: len(s.tanks()) > 0,
		Reading: true,
		Heel:    len(s.mixers()) > 0,
		Blend:   true,
		Truck:   len(s.haulers()) > 0,
		Valves:  len(moves(s.Plumbing)) > 0,
	}
	return slices.DeleteFunc(Topics(), func(t Topic) bool { return !have[t] })
}

// filled puts the default shop in the place of what is not known. Equipment is
// taken from it only where there is none at all, since a yard without a truck has
// no use for problems about one.
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

// tank is a tank of either sort: full is a usual filling.
type tank struct {
	name           string
	capacity, full quantity.Volume
}

// tanks lists all that can hold enough for a sum.
func (s Shop) tanks() []tank {
	var all []tank
	for _, m := range s.mixers() {
		all = append(all, tank{m.Name, m.Capacity, m.WorkingVolume})
	}
	for _, t := range s.Tanks {
		if !t.Mixing && t.Capacity >= smallest {
			all = append(all, tank{t.Name, t.Capacity, t.Capacity})
		}
	}
	return all
}

// mixers lists the mixing tanks with a working volume.
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
