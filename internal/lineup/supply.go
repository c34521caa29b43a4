package lineup

import (
	"brineyard/internal/yard"
)

// Exposure is a link by which brine can come to the fresh water.
type Exposure struct {
	Link string
	To   string // the place on its far side
	Why  Reason
}

// Reason says why a link does not keep brine off the fresh water.
type Reason string

// The reasons.
const (
	Unprotected Reason = "unprotected"  // neither air gap nor backflow preventer
	CheckAlone  Reason = "check valve"  // which is no backflow preventer
	ClosedGap   Reason = "air gap shut" // an air gap in a closed line, where there can be none: water falls through it into an open vessel
)

// Exposures lists the links at the supply, and at the fresh-water tank's side of the supply, that do not keep brine off
// it, whatever valves are open. That a check valve is no protection, and that an air gap needs an open vessel, is
// common practice, no source; local codes say what counts.
func Exposures(p yard.Plumbing) (all []Exposure) {
	n := network{Plumbing: p, pump: p.AllPumps()[0], open: map[string]bool{}}
	for _, name := range p.Valves() {
		n.open[name] = true
	}
	for _, l := range p.Links {
		for _, to := range l.Beyond(yard.FreshWater) {
			switch {
			case l.AirGap && !n.openVessel(to):
				all = append(all, Exposure{l.Name, to, ClosedGap})
			case l.Protected || !n.brineAt(to):
			case l.OneWay:
				all = append(all, Exposure{l.Name, to, CheckAlone})
			default:
				all = append(all, Exposure{l.Name, to, Unprotected})
			}
		}
	}
	return all
}

// openVessel reports whether water can fall into a place through the air: a tank or a hose's end; or a joint from which
// pipes lead into such alone.
func (n network) openVessel(place string) bool {
	if n.stops(place) {
		return true
	}
	return len(inOrder(n.pumpSides(), n.reach(place, n.anyway))) == 0
}

// anyway is for pipes that are joined, whatever sits in them.
func (n network) anyway(l yard.Link, place string) []string { return l.Beyond(place) }

// brineAt reports whether brine can stand at a place, or come there past nothing that protects.
func (n network) brineAt(place string) bool {
	if n.stops(place) {
		return place != yard.WaterTank
	}
	seen := n.reach(place, bare)
	return len(inOrder(n.ends(), seen)) > 0 || len(inOrder(n.pumpSides(), seen)) > 0
}

// Sides are the ways to a pump and from it, each from a source and to an end.
type Sides struct {
	Pump               yard.Pump
	Suction, Discharge []Way
}

// Way is what liquid passes between two places.
type Way struct {
	From string
	Path []Hop
}

// Draw lists the ways to and from each pump, and the links that lie on none of them.
func Draw(p yard.Plumbing) (pumps []Sides, besides []yard.Link) {
	drawn := map[string]bool{}
	n := network{Plumbing: p}
	collect := func(n network, from, to string) (ways []Way) {
		for _, path := range n.paths(from, to) {
			ways = append(ways, Way{from, path})
			for _, h := range path {
				drawn[h.Link.Name] = true
			}
		}
		return ways
	}
	for _, pump := range p.AllPumps() {
		s := Sides{Pump: pump}
		n.pump = pump
		for _, from := range n.sources() {
			s.Suction = append(s.Suction, collect(n, from, pump.In())...)
		}
		for _, to := range n.ends() {
			s.Discharge = append(s.Discharge, collect(n, pump.Out(), to)...)
		}
		pumps = append(pumps, s)
	}
	for _, l := range p.Links {
		if !drawn[l.Name] {
			besides = append(besides, l)
		}
	}
	return pumps, besides
}
