package lineup

import (
	"slices"

	"brineyard/internal/yard"
)

// network is a plumbing with its open valves and the pump that is to run: it tells where liquid can run.
type network struct {
	yard.Plumbing
	pump yard.Pump
	open map[string]bool
}

// noPump is the name of no pump: all of them stand still.
const noPump = "\x00"

// openValves lists the open valves in the plumbing's order.
func (n network) openValves() []string { return inOrder(n.Valves(), n.open) }

// opened are the open valves that are no three-way valves.
func (n network) opened() (names []string) {
	for _, l := range n.Links {
		if l.Valve && l.Turns == "" && n.open[l.Name] {
			names = append(names, l.Name)
		}
	}
	return names
}

// turned is how the three-way valves stand.
func (n network) turned() (stands []Stand) {
	for _, l := range n.Links {
		if l.Turns != "" && n.open[l.Name] {
			stands = append(stands, Stand{l.Turns, l.B})
		}
	}
	return stands
}

// sources lists what a pump can draw from.
func (n network) sources() []string {
	if n.HasWaterTank() {
		return slices.Concat(n.Tanks, []string{yard.FreshWater, yard.WaterTank})
	}
	return slices.Concat(n.Tanks, []string{yard.FreshWater})
}

// vessels are the tanks, that of fresh water among them.
func (n network) vessels() []string {
	if n.HasWaterTank() {
		return slices.Concat(n.Tanks, []string{yard.WaterTank})
	}
	return n.Tanks
}

// ends lists where liquid can be brought to.
func (n network) ends() []string { return slices.Concat(n.Tanks, n.Outlets) }

// pumpSides are the places of every pump.
func (n network) pumpSides() (sides []string) {
	for _, p := range n.AllPumps() {
		sides = append(sides, p.In(), p.Out())
	}
	return sides
}

// stops tells the places at which liquid in a pipe ends: nothing flows through
// them from one pipe to the next.
func (n network) stops(place string) bool {
	return slices.Contains(n.Tanks, place) || slices.Contains(n.Outlets, place) || yard.IsFresh(place)
}

// way tells where a link leads from a place: yard.Link.Onward with the liquid, Back against it, or Beyond, either way.
type way func(l yard.Link, place string) []string

// bare is for brine that creeps towards the supply: only an air gap or a backflow preventer keeps it off, and no
// check valve.
func bare(l yard.Link, place string) []string {
	if l.Protected {
		return nil
	}
	return l.Beyond(place)
}

// reach returns the places that open links lead to from a place. Liquid passes a pump that stands still.
func (n network) reach(from string, by way) map[string]bool {
	seen := map[string]bool{from: true}
	for queue := []string{from}; len(queue) > 0; queue = queue[1:] {
		at := queue[0]
		if at != from && n.stops(at) {
			continue
		}
		for _, next := range n.beyond(at, by) {
			if !seen[next] {
				seen[next] = true
				queue = append(queue, next)
			}
		}
	}
	return seen
}

// beyond are the places next to one, through open links and pumps that stand still.
func (n network) beyond(at string, by way) (next []string) {
	for _, l := range n.Links {
		if !l.Valve || n.open[l.Name] {
			next = append(next, by(l, at)...)
		}
	}
	for _, p := range n.AllPumps() {
		if p.Name != n.pump.Name {
			next = append(next, by(yard.Link{A: p.In(), B: p.Out()}, at)...)
		}
	}
	return next
}

// unprotected lists what has held brine and is joined to fresh water with neither
// air gap nor preventer between: tanks, and the pumps with the tanks they serve.
func (n network) unprotected() []string {
	return inOrder(slices.Concat(n.ends(), n.pumpSides()), n.reach(yard.FreshWater, bare))
}

// joined lists pairs of tanks between which open pipes lead past the pump: they
// level out by themselves.
func (n network) joined() [][]string {
	var pairs [][]string
	all := n.vessels()
	for i, a := range all {
		from, to := n.reach(a, yard.Link.Onward), n.reach(a, yard.Link.Back)
		for _, b := range all[i+1:] {
			if from[b] || to[b] {
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
		seen := n.reach(from, yard.Link.Onward)
		for _, to := range places {
			if seen[to] && !(fromPump && fed[to]) {
				pairs = append(pairs, []string{from, to})
			}
		}
	}
	add(yard.FreshWater, n.ends(), false)
	for _, tank := range n.vessels() {
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
