package lineup

import (
	"slices"

	"brineyard/internal/yard"
)

// network is a plumbing with its open valves: it tells where liquid can run.
type network struct {
	yard.Plumbing
	open map[string]bool
}

// openValves lists the open valves in the plumbing's order.
func (n network) openValves() []string { return inOrder(n.Valves(), n.open) }

// sources lists what a pump can draw from.
func (n network) sources() []string { return slices.Concat(n.Tanks, []string{yard.FreshWater}) }

// ends lists where liquid can be brought to.
func (n network) ends() []string { return slices.Concat(n.Tanks, n.Outlets) }

// stops tells the places at which liquid in a pipe ends: nothing flows through
// them from one pipe to the next.
func (n network) stops(place string) bool {
	return slices.Contains(n.Tanks, place) || slices.Contains(n.Outlets, place) || place == yard.FreshWater
}

// anyLink and bareLink tell which links count: all, or those that have neither air gap nor
// backflow preventer.
func anyLink(yard.Link) bool    { return true }
func bareLink(l yard.Link) bool { return !l.Protected }

// reach returns the places that open links lead to from a place, of links that count.
func (n network) reach(from string, counts func(yard.Link) bool) map[string]bool {
	seen := map[string]bool{from: true}
	for queue := []string{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if at != from && n.stops(at) {
			continue
		}
		for _, l := range n.Links {
			if l.Valve && !n.open[l.Name] || !counts(l) {
				continue
			}
			for _, next := range l.Beyond(at) {
				if !seen[next] {
					seen[next] = true
					queue = append(queue, next)
				}
			}
		}
	}
	return seen
}

// unprotected lists what has held brine and is joined to fresh water with neither
// air gap nor preventer between: tanks, and the pump with the tanks it serves.
func (n network) unprotected() []string {
	return inOrder(append(n.ends(), yard.PumpInlet, yard.PumpOutlet), n.reach(yard.FreshWater, bareLink))
}

// joined lists pairs of tanks between which open pipes lead past the pump: they
// level out by themselves.
func (n network) joined() [][]string {
	var pairs [][]string
	for i, a := range n.Tanks {
		seen := n.reach(a, anyLink)
		for _, b := range n.Tanks[i+1:] {
			if seen[b] {
				pairs = append(pairs, []string{a, b})
			}
		}
	}
	return pairs
}

// alsoRuns lists what runs past the pump by itself while it pumps: the supply into a tank
// or an outlet, a tank out of an outlet, unless the pump feeds both. Tanks that level out
// are joined.
func (n network) alsoRuns(pumping bool, fed map[string]bool) [][]string {
	if !pumping {
		return nil
	}
	var pairs [][]string
	add := func(from string, places []string, fromPump bool) {
		seen := n.reach(from, anyLink)
		for _, to := range places {
			if seen[to] && !(fromPump && fed[to]) {
				pairs = append(pairs, []string{from, to})
			}
		}
	}
	add(yard.FreshWater, n.ends(), false)
	for _, tank := range n.Tanks {
		add(tank, n.Outlets, fed[tank])
	}
	return pairs
}

// inOrder keeps the names of a list that are among others.
func inOrder(list []string, among map[string]bool) []string {
	var kept []string
	for _, name := range list {
		if among[name] {
			kept = append(kept, name)
		}
	}
	return kept
}
