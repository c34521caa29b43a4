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
	return len(inOrder(n.pumpSides(), n.reach(place, yard.Link.Beyond))) == 0
}

// brineAt reports whether brine can stand at a place, or come there past nothing that protects.
func (n network) brineAt(place string) bool {
	if n.stops(place) {
		return place != yard.WaterTank
	}
	seen := n.reach(place, bare)
	return len(inOrder(n.ends(), seen)) > 0 || len(inOrder(n.pumpSides(), seen)) > 0
}
