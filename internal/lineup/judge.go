// Package lineup finds the valves to open for a move, and judges a setting of open valves.
package lineup

import (
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Fault says what is wrong with a setting of the valves.
type Fault string

// The faults of a setting.
const (
	DryRun      Fault = "dry run"      // no open suction
	DrawsAir    Fault = "draws air"    // an open end on the suction side
	TwoSources  Fault = "two sources"  // it draws from more than one place
	DeadHead    Fault = "dead head"    // no open outlet
	Ring        Fault = "ring"         // the outlet leads back to the suction
	Backflow    Fault = "backflow"     // fresh water joined to brine, unprotected
	TanksJoined Fault = "tanks joined" // they level out past the pump
	AlsoRuns    Fault = "also runs"    // water or brine runs where it is not pumped
)

// Finding is a fault with the places that it concerns.
type Finding struct {
	Fault  Fault
	Places []string
}

// Setting is what a choice of open valves does.
type Setting struct {
	Open     []string // valves, in the plumbing's order
	Sources  []string // what the pump draws from
	Outlets  []string // where it pumps to
	Findings []Finding
}

// allowedNames lists what there is, sorted, for a refusal.
func allowedNames(names []string, what string) fault.Word {
	return fault.Word(words.Joined(slices.Sorted(slices.Values(names)), "none; the plumbing has no "+what))
}

// Judge tells what a setting of open valves does, with the pump running. Errors:
// InputError for a valve that is not there.
func Judge(p yard.Plumbing, open []string) (Setting, error) {
	isOpen := map[string]bool{}
	for _, name := range open {
		if !p.HasValve(name) {
			return Setting{}, fault.Input(fault.FieldOpen, "no valve is named %v; allowed: %v", fault.Word(name), allowedNames(p.Valves(), "valves"))
		}
		isOpen[name] = true
	}
	return network{p}.judge(isOpen, true), nil
}

// network answers where liquid can run in a plumbing.
type network struct{ yard.Plumbing }

// judge is Judge for valves that are there; pumping false is with the pump off.
func (p network) judge(isOpen map[string]bool, pumping bool) Setting {
	s := Setting{}
	for _, l := range p.Links {
		if l.Valve && isOpen[l.Name] {
			s.Open = append(s.Open, l.Name)
		}
	}
	in, out := p.reach(yard.PumpInlet, isOpen, false), p.reach(yard.PumpOutlet, isOpen, false)
	s.Sources, s.Outlets = p.sources(in), p.ends(out)
	find := func(f Fault, places ...string) { s.Findings = append(s.Findings, Finding{f, places}) }
	if pumping {
		switch {
		case in[yard.PumpOutlet]:
			find(Ring)
		case len(s.Sources) == 0:
			find(DryRun)
		case len(s.Sources) > 1:
			find(TwoSources, s.Sources...)
		}
		if open := inOrder(p.Outlets, in); len(open) > 0 && !in[yard.PumpOutlet] {
			find(DrawsAir, open...)
		}
		if len(s.Outlets) == 0 && !in[yard.PumpOutlet] {
			find(DeadHead)
		}
	}
	if touched := p.unprotected(isOpen); len(touched) > 0 {
		find(Backflow, touched...)
	}
	for _, pair := range p.joined(isOpen) {
		find(TanksJoined, pair...)
	}
	if pumping {
		for _, pair := range p.alsoRuns(isOpen, out) {
			find(AlsoRuns, pair...)
		}
	}
	return s
}

// stops tells the places at which liquid in a pipe ends: nothing flows through
// them from one pipe to the next.
func (p network) stops(place string) bool {
	return slices.Contains(p.Tanks, place) || slices.Contains(p.Outlets, place) || place == yard.FreshWater
}

// reach returns the places that open pipes lead to from a place.
func (p network) reach(from string, isOpen map[string]bool, onlyUnprotected bool) map[string]bool {
	seen := map[string]bool{from: true}
	queue := []string{from}
	for len(queue) > 0 {
		at := queue[0]
		queue = queue[1:]
		if at != from && p.stops(at) {
			continue
		}
		for _, l := range p.Links {
			if l.Valve && !isOpen[l.Name] || onlyUnprotected && l.Protected {
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

// sources lists the tanks, and the supply, among places.
func (p network) sources(seen map[string]bool) []string {
	return inOrder(append(append([]string(nil), p.Tanks...), yard.FreshWater), seen)
}

// ends lists the tanks and outlets among places.
func (p network) ends(seen map[string]bool) []string {
	return inOrder(append(append([]string(nil), p.Tanks...), p.Outlets...), seen)
}

// unprotected lists what has held brine and is joined to fresh water with neither
// air gap nor preventer between: tanks, and the pump with the tanks it serves.
func (p network) unprotected(isOpen map[string]bool) []string {
	seen := p.reach(yard.FreshWater, isOpen, true)
	places := append(append(append([]string(nil), p.Tanks...), p.Outlets...), yard.PumpInlet, yard.PumpOutlet)
	return inOrder(places, seen)
}

// alsoRuns lists what runs past the pump by itself: the supply into a tank or an
// outlet, a tank out of an outlet, where it is not the pump that feeds both.
func (p network) alsoRuns(isOpen, fed map[string]bool) [][]string {
	var pairs [][]string
	for _, a := range append([]string{yard.FreshWater}, p.Tanks...) {
		seen := p.reach(a, isOpen, false)
		for _, b := range append(append([]string(nil), p.Tanks...), p.Outlets...) {
			if !seen[b] || a == b || fed[a] && fed[b] && a != yard.FreshWater || a != yard.FreshWater && slices.Contains(p.Tanks, b) {
				continue // joined tanks are told apart
			}
			pairs = append(pairs, []string{a, b})
		}
	}
	return pairs
}

// joined lists pairs of tanks between which open pipes lead past the pump: they
// level out by themselves.
func (p network) joined(isOpen map[string]bool) [][]string {
	var pairs [][]string
	for i, a := range p.Tanks {
		seen := p.reach(a, isOpen, false)
		for _, b := range p.Tanks[i+1:] {
			if seen[b] {
				pairs = append(pairs, []string{a, b})
			}
		}
	}
	return pairs
}

func inOrder(list []string, seen map[string]bool) []string {
	var out []string
	for _, w := range list {
		if seen[w] {
			out = append(out, w)
		}
	}
	return out
}
