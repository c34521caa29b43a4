package lineup

import (
	"brineyard/internal/fault"
	"brineyard/internal/yard"
	"slices"
	"sort"
)

// Move is liquid taken from one place to another.
type Move struct {
	From, To string
	// Pumped is false where the supply's own pressure does it.
	Pumped  bool
	Setting Setting
	// Path is what the liquid passes, link by link, from From to To, with the pump
	// between two of them.
	Path []Hop
}

// Hop is one link of a path, and the place behind it.
type Hop struct {
	Link yard.Link
	To   string
}

// mostPaths bounds the search: a yard's plumbing has a few dozen.
const mostPaths = 500

// Plan finds the valves to open for a move, with as few as will do. Errors:
// InputError for places that are not there, and for a move that the plumbing does
// not allow.
func Plan(plumbing yard.Plumbing, from, to string) (Move, error) {
	p := network{plumbing}
	if from != yard.FreshWater && !slices.Contains(p.Tanks, from) {
		return Move{}, fault.Input(fault.FieldFrom, "no such source; allowed: %v", allowedNames(append([]string{yard.FreshWater}, p.Tanks...), "tanks"))
	}
	if !slices.Contains(p.Tanks, to) && !slices.Contains(p.Outlets, to) {
		return Move{}, fault.Input(fault.FieldMoveTo, "no such destination; allowed: %v", allowedNames(slices.Concat(p.Tanks, p.Outlets), "tanks"))
	}
	moves := p.moves(from, to)
	if len(moves) == 0 {
		return Move{}, fault.Input(fault.FieldMoveTo, "the plumbing allows no move from %v to there that draws from one place, reaches one place and keeps fresh water apart: %v",
			fault.Word(from), fault.Word(p.obstacle(from, to)))
	}
	return moves[0], nil
}

// obstacle says why a move is not to be had.
func (p network) obstacle(from, to string) string {
	direct := p.paths(from, to)
	switch {
	case from == yard.FreshWater && len(direct) > 0:
		return "the way there has neither air gap nor backflow preventer, or leads elsewhere too"
	case len(p.paths(from, yard.PumpInlet)) == 0:
		return "nothing leads from " + from + " to the pump's suction"
	case len(p.paths(yard.PumpOutlet, to)) == 0:
		return "nothing leads from the pump's outlet to " + to + "; what runs by itself is not planned"
	}
	return "every way draws or leaks somewhere else as well"
}

// moves lists all moves between two places that judge finds nothing in, the
// shortest first.
func (p network) moves(from, to string) []Move {
	var out []Move
	if from == yard.FreshWater {
		for _, path := range p.paths(from, to) {
			if m, ok := p.move(from, to, path, nil); ok {
				out = append(out, m)
			}
		}
	}
	discharge := p.paths(yard.PumpOutlet, to)
	for _, suction := range p.paths(from, yard.PumpInlet) {
		for _, d := range discharge {
			if m, ok := p.move(from, to, suction, d); ok {
				out = append(out, m)
			}
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return len(out[i].Setting.Open) < len(out[j].Setting.Open) })
	return out
}

// move judges a way from one place to another; with no discharge path the supply's
// pressure does it.
func (p network) move(from, to string, first, discharge []Hop) (Move, bool) {
	m := Move{From: from, To: to, Pumped: discharge != nil, Path: append(append([]Hop(nil), first...), discharge...)}
	open := map[string]bool{}
	for _, h := range m.Path {
		if h.Link.Valve {
			open[h.Link.Name] = true
		}
	}
	m.Setting = p.judge(open, m.Pumped)
	s := m.Setting
	if len(s.Findings) > 0 {
		return m, false
	}
	if m.Pumped {
		return m, len(s.Sources) == 1 && s.Sources[0] == from && len(s.Outlets) == 1 && s.Outlets[0] == to
	}
	reached := p.reach(yard.FreshWater, open, false)
	delete(reached, yard.FreshWater)
	ends := p.ends(reached)
	return m, len(ends) == 1 && ends[0] == to && !reached[yard.PumpInlet] && !reached[yard.PumpOutlet]
}

// paths lists the ways between two places that pass no place twice and no tank,
// outlet, supply or pump on the way, the fewest valves first.
func (p network) paths(from, to string) [][]Hop {
	var found [][]Hop
	visited := map[string]bool{from: true}
	var walk func(at string, sofar []Hop)
	walk = func(at string, sofar []Hop) {
		if len(found) >= mostPaths {
			return
		}
		for _, l := range p.Links {
			for _, next := range l.Beyond(at) {
				if visited[next] {
					continue
				}
				path := append(append([]Hop(nil), sofar...), Hop{l, next})
				if next == to {
					found = append(found, path)
					continue
				}
				if p.stops(next) || next == yard.PumpInlet || next == yard.PumpOutlet {
					continue
				}
				visited[next] = true
				walk(next, path)
				visited[next] = false
			}
		}
	}
	walk(from, nil)
	sort.SliceStable(found, func(i, j int) bool { return valveCount(found[i]) < valveCount(found[j]) })
	return found
}

func valveCount(path []Hop) int {
	n := 0
	for _, h := range path {
		if h.Link.Valve {
			n++
		}
	}
	return n
}

// Rinse is the moves that pass fresh water through the plumbing.
type Rinse struct {
	Moves []RinseMove
	// Dry are the links that no move reaches.
	Dry []string
}

// RinseMove is one of them.
type RinseMove struct {
	Move
	// Fill puts fresh water into the tank that the move draws from; nil where the
	// move draws from the supply, or where a hose has to do it.
	Fill *Move
	// New are the links that this move rinses first.
	New []string
}

// PlanRinse finds moves that pass fresh water through every valve, every line and
// the pump, few of them, from the supply where that can be. Errors: InputError when
// there is nothing to rinse.
func PlanRinse(plumbing yard.Plumbing) (Rinse, error) {
	p := network{plumbing}
	if len(p.Links) == 0 {
		return Rinse{}, fault.Input(fault.FieldRinse, "the plumbing has no valves and no lines; allowed: with them in the yard file")
	}
	candidates := p.allMoves()
	left := map[string]bool{}
	for _, l := range p.Links {
		left[l.Name] = true
	}
	var r Rinse
	for len(left) > 0 {
		best, most := Move{}, 0
		for _, m := range candidates {
			n := 2 * countNew(m, left)
			if m.From == m.To && n > 0 {
				n-- // round and round only where nothing else does
			}
			if n > most {
				best, most = m, n
			}
		}
		if most == 0 {
			break
		}
		r.Moves = append(r.Moves, p.rinse(best, left))
	}
	// Fresh water straight from the supply goes last, through what the tanks left.
	sort.SliceStable(r.Moves, func(i, j int) bool { return r.Moves[i].From != yard.FreshWater && r.Moves[j].From == yard.FreshWater })
	for _, l := range p.Links {
		if left[l.Name] {
			r.Dry = append(r.Dry, l.Name)
		}
	}
	return r, nil
}

// allMoves lists the moves from the supply, then those from tanks.
func (p network) allMoves() []Move {
	var all []Move
	for _, from := range append([]string{yard.FreshWater}, p.Tanks...) {
		for _, to := range append(append([]string(nil), p.Outlets...), p.Tanks...) {
			all = append(all, p.moves(from, to)...)
		}
	}
	return all
}

func countNew(m Move, left map[string]bool) int {
	n := 0
	for _, h := range m.Path {
		if left[h.Link.Name] {
			n++
		}
	}
	return n
}

// rinse takes a move, and marks what it rinses.
func (p network) rinse(m Move, left map[string]bool) RinseMove {
	out := RinseMove{Move: m}
	if m.From != yard.FreshWater {
		if fill := p.moves(yard.FreshWater, m.From); len(fill) > 0 {
			out.Fill = &fill[0]
			out.mark(fill[0].Path, left)
		}
	}
	out.mark(m.Path, left)
	return out
}

// mark takes what a path rinses off what is left.
func (r *RinseMove) mark(path []Hop, left map[string]bool) {
	for _, h := range path {
		if left[h.Link.Name] {
			r.New = append(r.New, h.Link.Name)
			delete(left, h.Link.Name)
		}
	}
}
