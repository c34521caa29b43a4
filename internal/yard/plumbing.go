package yard

import (
	"slices"

	"brineyard/internal/hydraulics"
	"brineyard/internal/quantity"
)

// The reserved places of a plumbing.
const (
	PumpInlet  = "pump-in"    // the pump's suction
	PumpOutlet = "pump-out"   // the pump's outlet
	FreshWater = "supply"     // fresh water under pressure
	WaterTank  = "water-tank" // the fresh-water tank, which the supply refills
)

// Plumbing is the lines and valves between places. A place is a tank, the supply, the fresh-water tank, an outlet
// (the end of a hose), a side of a pump, or else a joint of pipes.
type Plumbing struct {
	Tanks   []string
	Outlets []string
	Links   []Link
	Pumps   []Pump        // the first is the one that circulates; none counts as one of which nothing is known
	Supply  quantity.Flow // 0 where not known
}

// Link is a valve, or a line that is always open, between two places.
type Link struct {
	Name      string
	Side      string // of the pump, for people; the judgement goes by the places that it joins
	A, B      string
	Valve     bool
	Protected bool // an air gap or a backflow preventer sits in it
	AirGap    bool // of the two it is an air gap
	// OneWay is set where a check valve lets liquid through from A to B alone.
	OneWay bool
	// Turns is the three-way valve of which the link is one of the two ways; empty for none.
	Turns string
	// Of the pipe; 0 where not known.
	Length   quantity.Length
	Diameter quantity.Depth // of the bore
	Steel    bool           // and else as smooth as plastic and hose
	Fittings float64        // sum of loss coefficients
	Holds    quantity.Volume
}

// Pump moves the brine: circulates it, pumps it off, loads it.
type Pump struct {
	Name       string // empty for the first
	Flow       quantity.Flow
	Power      quantity.Power // of its motor
	Efficiency quantity.Fraction
	Curve      []hydraulics.Point // of flow and head; empty where not known
}

// In and Out are the places of its two sides.
func (p Pump) In() string { return p.side(PumpInlet, "-in") }

// Out is the place of its outlet.
func (p Pump) Out() string { return p.side(PumpOutlet, "-out") }

func (p Pump) side(first, suffix string) string {
	if p.Name == "" {
		return first
	}
	return p.Name + suffix
}

// Label names the pump in a sentence.
func (p Pump) Label() string {
	if p.Name == "" {
		return "the pump"
	}
	return "pump " + p.Name
}

// AllPumps are the pumps, of which there is always one.
func (p Plumbing) AllPumps() []Pump {
	if len(p.Pumps) == 0 {
		return []Pump{{}}
	}
	return p.Pumps
}

// HasWaterTank reports whether the fresh-water tank is joined to anything.
func (p Plumbing) HasWaterTank() bool {
	return slices.ContainsFunc(p.Links, func(l Link) bool { return l.A == WaterTank || l.B == WaterTank })
}

// IsFresh reports whether a place holds fresh water: the supply, or the fresh-water tank.
func IsFresh(place string) bool { return place == FreshWater || place == WaterTank }

// HasValve reports whether a valve has that name.
func (p Plumbing) HasValve(name string) bool { return slices.Contains(p.Valves(), name) }

// Valves lists the names of the valves in order; the two ways of a three-way valve are two.
func (p Plumbing) Valves() []string {
	var names []string
	for _, l := range p.Links {
		if l.Valve {
			names = append(names, l.Name)
		}
	}
	return names
}

// Turns lists the three-way valves in order, each with its two ways.
func (p Plumbing) Turns() (all []Turn) {
	for _, l := range p.Links {
		if l.Turns == "" {
			continue
		}
		i := slices.IndexFunc(all, func(t Turn) bool { return t.Valve == l.Turns })
		if i < 0 {
			i, all = len(all), append(all, Turn{Valve: l.Turns})
		}
		all[i].Ways = append(all[i].Ways, l.Name)
	}
	return all
}

// Turn is a three-way valve: it stands one way or the other, and never shuts.
type Turn struct {
	Valve string
	Ways  []string // like "W1:north"
}

// Beyond returns the other end of the link, if one end is the place.
func (l Link) Beyond(place string) []string {
	switch place {
	case l.A:
		return []string{l.B}
	case l.B:
		return []string{l.A}
	}
	return nil
}

// Onward is Beyond for what runs from the place, and Back for what runs to it: a check valve lets one of them through.
func (l Link) Onward(place string) []string {
	if l.OneWay && place != l.A {
		return nil
	}
	return l.Beyond(place)
}

// Back is the end from which liquid comes to the place.
func (l Link) Back(place string) []string {
	if l.OneWay && place != l.B {
		return nil
	}
	return l.Beyond(place)
}
