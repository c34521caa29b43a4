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
	Still   bool // then, whether it passes the pump, which stands still
	Pump    yard.Pump
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

// Plan finds the valves to open for a move, with as few as will do, by a pump, or by any where none is named. Errors:
// InputError for places and a pump that are not there, and for a move that the plumbing does
// not allow.
func Plan(plumbing yard.Plumbing, pump, from, to string) (Move, error) {
	running, err := pumpNamed(plumbing, pump)
	if err != nil {
		return Move{}, err
	}
	n := network{Plumbing: plumbing, pump: running}
	if sources := n.sources(); !slices.Contains(sources, from) {
		return Move{}, fault.Input(fault.FieldFrom, "no such source; allowed: %v", allowedNames(sources, "tanks"))
	}
	if ends := n.ends(); !slices.Contains(ends, to) {
		return Move{}, fault.Input(fault.FieldMoveTo, "no such destination; allowed: %v", allowedNames(ends, "tanks"))
	}
	moves := n.moves(from, to)
	if pump == "" {
		moves = n.byAnyPump(from, to)
	}
	if len(moves) == 0 {
		return Move{}, fault.Input(fault.FieldMoveTo, "the plumbing allows no move from %v to there that draws from one place, reaches one place and keeps fresh water apart: %v",
			fault.Word(from), fault.Word(n.obstacle(from, to)))
	}
	return moves[0], nil
}

// byAnyPump lists the moves of all pumps, the one with the fewest open valves first; of equal ones that of the first pump.
func (n network) byAnyPump(from, to string) (all []Move) {
	for i, p := range n.AllPumps() {
		n.pump = p
		for _, m := range n.moves(from, to) {
			if i == 0 || m.Pumped { // what runs by itself needs no pump
				all = append(all, m)
			}
		}
	}
	sortByValves(all)
	return all
}

// obstacle says why a move is not to be had.
func (n network) obstacle(from, to string) string {
	direct := from == yard.FreshWater && len(n.paths(from, to)) > 0
	suction, discharge := n.paths(from, n.pump.In()), n.paths(n.pump.Out(), to)
	switch {
	case from == yard.FreshWater && len(suction) > 0 && len(discharge) > 0 && n.supplyShort():
		return "through the pump it would run short, which moves more than the supply gives"
	case direct:
		return "the way there has neither air gap nor backflow preventer, or leads elsewhere too"
	case len(suction) == 0:
		return "nothing leads from " + from + " to the pump's suction"
	case len(discharge) == 0:
		return "nothing leads from the pump's outlet to " + to + "; what runs by itself is not planned"
	}
	return "every way draws or leaks somewhere else as well"
}

// moves lists all moves between two places that judge finds nothing in, the one with the
// fewest open valves first.
func (n network) moves(from, to string) []Move {
	var good []Move
	try := func(pumped bool, path []Hop) {
		if m := (Move{From: from, To: to, Pumped: pumped, Pump: n.pump, Path: path}); n.judgeMove(&m) {
			good = append(good, m)
		}
	}
	if from == yard.FreshWater {
		for _, path := range n.paths(from, to) {
			try(false, path)
		}
	}
	discharge := n.paths(n.pump.Out(), to)
	for _, suction := range n.paths(from, n.pump.In()) {
		for _, d := range discharge {
			try(true, slices.Concat(suction, d))
		}
	}
	sortByValves(good)
	return good
}

func sortByValves(moves []Move) {
	slices.SortStableFunc(moves, func(a, b Move) int { return cmp.Compare(len(a.Setting.Open), len(b.Setting.Open)) })
}

// judgeMove opens the valves of a move's path, and tells whether liquid then goes from its
// one end to the other and nowhere else. Three-way valves that are not on the path are turned as will do.
func (n network) judgeMove(m *Move) bool {
	n.open = map[string]bool{}
	for _, h := range m.Path {
		if h.Link.Valve {
			n.open[h.Link.Name] = true
		}
	}
	var free []yard.Turn
	for _, turn := range n.Turns() {
		switch stands := inOrder(turn.Ways, n.open); len(stands) {
		case 0:
			free = append(free, turn)
		case 1:
		default:
			return false // one valve, two ways at once
		}
	}
	return n.turn(free, func() bool { return n.goes(m) })
}

// mostTurns bounds the three-way valves off the path that are tried both ways.
const mostTurns = 6

// turn tries three-way valves every way until a setting will do.
func (n network) turn(free []yard.Turn, will func() bool) bool {
	if len(free) == 0 {
		return will()
	}
	ways := free[0].Ways
	if len(free) > mostTurns {
		ways = ways[:1]
	}
	for _, way := range ways {
		n.open[way] = true
		if n.turn(free[1:], will) {
			return true
		}
		delete(n.open, way)
	}
	return false
}

// goes judges a move with the valves that are open.
func (n network) goes(m *Move) bool {
	m.Setting = n.judge(m.Pumped)
	s := m.Setting
	if len(s.Findings) > 0 {
		return false
	}
	if m.Pumped {
		return slices.Equal(s.Sources, []string{m.From}) && slices.Equal(s.Outlets, []string{m.To})
	}
	reached := n.reach(yard.FreshWater, yard.Link.Onward)
	through := n.pump.Name == noPump // the water passes a pump that stands still
	return slices.Equal(inOrder(n.ends(), reached), []string{m.To}) && (through || len(inOrder(n.pumpSides(), reached)) == 0)
}

// paths lists the ways between two places that pass no place twice and no tank,
// outlet, supply or side of the pump on the way, the fewest valves first. Valves count as open. They may pass by another pump,
// where its side is a joint of pipes, and not through it.
func (n network) paths(from, to string) [][]Hop {
	var found [][]Hop
	visited, sides := map[string]bool{from: true}, []string{n.pump.In(), n.pump.Out()}
	var walk func(at string, sofar []Hop)
	walk = func(at string, sofar []Hop) {
		if len(found) >= mostPaths {
			return
		}
		for _, l := range n.Links {
			for _, next := range l.Onward(at) {
				if visited[next] {
					continue
				}
				path := slices.Concat(sofar, []Hop{{l, next}})
				if next == to {
					found = append(found, path)
					continue
				}
				if n.stops(next) || slices.Contains(sides, next) {
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
