package yard

import (
	"slices"
)

// The reserved places of a plumbing.
const (
	PumpInlet  = "pump-in"  // the pump's suction
	PumpOutlet = "pump-out" // the pump's outlet
	FreshWater = "supply"   // fresh water under pressure
)

// Plumbing is the lines and valves between places. A place is a tank, the supply, an outlet
// (the end of a hose), a side of the pump, or else a joint of pipes.
type Plumbing struct {
	Tanks   []string
	Outlets []string
	Links   []Link
}

// Link is a valve, or a line that is always open, between two places.
type Link struct {
	Name      string
	Side      string // of the pump, for people; the judgement goes by the places that it joins
	A, B      string
	Valve     bool
	Protected bool // an air gap or a backflow preventer sits in it
}

// HasValve reports whether a valve has that name.
func (p Plumbing) HasValve(name string) bool { return slices.Contains(p.Valves(), name) }

// Valves lists the names of the valves in order.
func (p Plumbing) Valves() []string {
	var names []string
	for _, l := range p.Links {
		if l.Valve {
			names = append(names, l.Name)
		}
	}
	return names
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
