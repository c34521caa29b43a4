package brine

import (
	"slices"
	"sort"
)

// The reserved places of a plumbing.
const (
	PumpIn  = "pump-in"  // the pump's suction
	PumpOut = "pump-out" // the pump's outlet
	Supply  = "supply"   // fresh water under pressure
)

// Plumbing is what joins what. A place is a tank, the supply, an outlet (the end of
// a hose), a side of the pump, or else a joint of pipes.
type Plumbing struct {
	Tanks   []string
	Outlets []string
	Links   []Link
}

// Link is a valve, or a line that is always open, between two places.
type Link struct {
	Name      string
	Side      string // of the pump, for people: the judgement goes by what it joins
	A, B      string
	Valve     bool
	Protected bool // an air gap or a backflow preventer sits in it
}

// LineFault says what is wrong with a setting of the valves.
type LineFault string

// The faults of a setting.
const (
	DryRun      LineFault = "dry run"      // no open suction
	DrawsAir    LineFault = "draws air"    // an open end on the suction side
	TwoSources  LineFault = "two sources"  // it draws from more than one place
	DeadHead    LineFault = "dead head"    // no open outlet
	Ring        LineFault = "ring"         // the outlet leads back to the suction
	Backflow    LineFault = "backflow"     // fresh water joined to brine, unprotected
	TanksJoined LineFault = "tanks joined" // they level out past the pump
	AlsoRuns    LineFault = "also runs"    // water or brine runs where it is not pumped
)

// Finding is a fault with the places that it concerns.
type Finding struct {
	Fault  LineFault
	Places []string
}

// Setting is what a choice of open valves does.
type Setting struct {
	Open     []string // valves, in the plumbing's order
	Sources  []string // what the pump draws from
	Outlets  []string // where it pumps to
	Findings []Finding
}

// Judge tells what a setting of open valves does, with the pump running. Errors:
// InputError for a valve that is not there.
func Judge(p Plumbing, open []string) (Setting, error) {
	isOpen := map[string]bool{}
	for _, name := range open {
		if !p.hasValve(name) {
			return Setting{}, bad(FieldOpen, "no valve is named %v; allowed: %v", word(name), word(listOr(p.valves())))
		}
		isOpen[name] = true
	}
	return p.judge(isOpen, true), nil
}

// judge is Judge for valves that are there; pumping false is with the pump off.
func (p Plumbing) judge(isOpen map[string]bool, pumping bool) Setting {
	s := Setting{}
	for _, l := range p.Links {
		if l.Valve && isOpen[l.Name] {
			s.Open = append(s.Open, l.Name)
		}
	}
	in, out := p.reach(PumpIn, isOpen, false), p.reach(PumpOut, isOpen, false)
	s.Sources, s.Outlets = p.sources(in), p.ends(out)
	find := func(f LineFault, places ...string) { s.Findings = append(s.Findings, Finding{f, places}) }
	if pumping {
		switch {
		case in[PumpOut]:
			find(Ring)
		case len(s.Sources) == 0:
			find(DryRun)
		case len(s.Sources) > 1:
			find(TwoSources, s.Sources...)
		}
		if open := inOrder(p.Outlets, in); len(open) > 0 && !in[PumpOut] {
			find(DrawsAir, open...)
		}
		if len(s.Outlets) == 0 && !in[PumpOut] {
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
func (p Plumbing) stops(place string) bool {
	return slices.Contains(p.Tanks, place) || slices.Contains(p.Outlets, place) || place == Supply
}

// reach returns the places that open pipes lead to from a place.
func (p Plumbing) reach(from string, isOpen map[string]bool, onlyUnprotected bool) map[string]bool {
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
			for _, next := range l.beyond(at) {
				if !seen[next] {
					seen[next] = true
					queue = append(queue, next)
				}
			}
		}
	}
	return seen
}

// beyond returns the other end of the link, if one end is the place.
func (l Link) beyond(place string) []string {
	switch place {
	case l.A:
		return []string{l.B}
	case l.B:
		return []string{l.A}
	}
	return nil
}

// sources lists the tanks, and the supply, among places.
func (p Plumbing) sources(seen map[string]bool) []string {
	return inOrder(append(append([]string(nil), p.Tanks...), Supply), seen)
}

// ends lists the tanks and outlets among places.
func (p Plumbing) ends(seen map[string]bool) []string {
	return inOrder(append(append([]string(nil), p.Tanks...), p.Outlets...), seen)
}

// unprotected lists what has held brine and is joined to fresh water with neither
// air gap nor preventer between: tanks, and the pump with the tanks it serves.
func (p Plumbing) unprotected(isOpen map[string]bool) []string {
	seen := p.reach(Supply, isOpen, true)
	places := append(append(append([]string(nil), p.Tanks...), p.Outlets...), PumpIn, PumpOut)
	return inOrder(places, seen)
}

// alsoRuns lists what runs past the pump by itself: the supply into a tank or an
// outlet, a tank out of an outlet, where it is not the pump that feeds both.
func (p Plumbing) alsoRuns(isOpen, fed map[string]bool) [][]string {
	var pairs [][]string
	for _, a := range append([]string{Supply}, p.Tanks...) {
		seen := p.reach(a, isOpen, false)
		for _, b := range append(append([]string(nil), p.Tanks...), p.Outlets...) {
			if !seen[b] || a == b || fed[a] && fed[b] && a != Supply || a != Supply && slices.Contains(p.Tanks, b) {
				continue // joined tanks are told apart
			}
			pairs = append(pairs, []string{a, b})
		}
	}
	return pairs
}

// joined lists pairs of tanks between which open pipes lead past the pump: they
// level out by themselves.
func (p Plumbing) joined(isOpen map[string]bool) [][]string {
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

func (p Plumbing) hasValve(name string) bool { return slices.Contains(p.valves(), name) }

// valves lists the names of the valves in order.
func (p Plumbing) valves() []string {
	var names []string
	for _, l := range p.Links {
		if l.Valve {
			names = append(names, l.Name)
		}
	}
	return names
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

// listOr joins names for a message.
func listOr(names []string) string {
	if len(names) == 0 {
		return "none; the plumbing has no valves"
	}
	sorted := append([]string(nil), names...)
	sort.Strings(sorted)
	text := ""
	for i, n := range sorted {
		if i > 0 {
			text += ", "
		}
		text += n
	}
	return text
}
