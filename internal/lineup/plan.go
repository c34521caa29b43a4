package lineup

import (
	"cmp"
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/yard"
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
	n := network{Plumbing: plumbing}
	if sources := n.sources(); !slices.Contains(sources, from) {
		return Move{}, fault.Input(fault.FieldFrom, "no such source; allowed: %v", allowedNames(sources, "tanks"))
	}
	if ends := n.ends(); !slices.Contains(ends, to) {
		return Move{}, fault.Input(fault.FieldMoveTo, "no such destination; allowed: %v", allowedNames(ends, "tanks"))
	}
	moves := n.moves(from, to)
	if len(moves) == 0 {
		return Move{}, fault.Input(fault.FieldMoveTo, "the plumbing allows no move from %v to there that draws from one place, reaches one place and keeps fresh water apart: %v",
			fault.Word(from), fault.Word(n.obstacle(from, to)))
	}
	return moves[0], nil
}

// obstacle says why a move is not to be had.
func (n network) obstacle(from, to string) string {
	switch {
	case from == yard.FreshWater && len(n.paths(from, to)) > 0:
		return "the way there has neither air gap nor backflow preventer, or leads elsewhere too"
	case len(n.paths(from, yard.PumpInlet)) == 0:
		return "nothing leads from " + from + " to the pump's suction"
	case len(n.paths(yard.PumpOutlet, to)) == 0:
		return "nothing leads from the pump's outlet to " + to + "; what runs by itself is not planned"
	}
	return "every way draws or leaks somewhere else as well"
}

// moves lists all moves between two places that judge finds nothing in, the one with the
// fewest open valves first.
func (n network) moves(from, to string) []Move {
	var good []Move
	try := func(pumped bool, path []Hop) {
		if m := (Move{From: from, To: to, Pumped: pumped, Path: path}); n.judgeMove(&m) {
			good = append(good, m)
		}
	}
	if from == yard.FreshWater {
		for _, path := range n.paths(from, to) {
			try(false, path)
		}
	}
	discharge := n.paths(yard.PumpOutlet, to)
	for _, suction := range n.paths(from, yard.PumpInlet) {
		for _, d := range discharge {
			try(true, slices.Concat(suction, d))
		}
	}
	slices.SortStableFunc(good, func(a, b Move) int { return cmp.Compare(len(a.Setting.Open), len(b.Setting.Open)) })
	return good
}

// judgeMove opens the valves of a move's path, and tells whether liquid then goes from its
// one end to the other and nowhere else.
func (n network) judgeMove(m *Move) bool {
	n.open = map[string]bool{}
	for _, h := range m.Path {
		if h.Link.Valve {
			n.open[h.Link.Name] = true
		}
	}
	m.Setting = n.judge(m.Pumped)
	s := m.Setting
	if len(s.Findings) > 0 {
		return false
	}
	if m.Pumped {
		return slices.Equal(s.Sources, []string{m.From}) && slices.Equal(s.Outlets, []string{m.To})
	}
	reached := n.reach(yard.FreshWater, anyLink)
	return slices.Equal(inOrder(n.ends(), reached), []string{m.To}) && !reached[yard.PumpInlet] && !reached[yard.PumpOutlet]
}

// paths lists the ways between two places that pass no place twice and no tank,
// outlet, supply or pump on the way, the fewest valves first. Valves count as open.
func (n network) paths(from, to string) [][]Hop {
	var found [][]Hop
	visited := map[string]bool{from: true}
	var walk func(at string, sofar []Hop)
	walk = func(at string, sofar []Hop) {
		if len(found) >= mostPaths {
			return
		}
		for _, l := range n.Links {
			for _, next := range l.Beyond(at) {
				if visited[next] {
					continue
				}
				path := slices.Concat(sofar, []Hop{{l, next}})
				if next == to {
					found = append(found, path)
					continue
				}
				if n.stops(next) || next == yard.PumpInlet || next == yard.PumpOutlet {
					continue
				}
				visited[next] = true
				walk(next, path)
				visited[next] = false
			}
		}
	}
	walk(from, nil)
	slices.SortStableFunc(found, func(a, b []Hop) int { return cmp.Compare(valveCount(a), valveCount(b)) })
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
