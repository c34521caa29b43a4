package lineup

import "brineyard/internal/yard"

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
