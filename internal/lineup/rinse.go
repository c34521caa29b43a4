package lineup

import (
	"slices"
	"sort"

	"brineyard/internal/fault"
	"brineyard/internal/yard"
)

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
	n := network{Plumbing: plumbing}
	if len(n.Links) == 0 {
		return Rinse{}, fault.Input(fault.FieldRinse, "the plumbing has no valves and no lines; allowed: with them in the yard file")
	}
	candidates := n.allMoves()
	left := map[string]bool{}
	for _, l := range n.Links {
		left[l.Name] = true
	}
	var r Rinse
	for best, found := mostNew(candidates, left); found; best, found = mostNew(candidates, left) {
		r.Moves = append(r.Moves, n.rinse(best, left))
	}
	// Fresh water straight from the supply goes last, through what the tanks left.
	sort.SliceStable(r.Moves, func(i, j int) bool { return r.Moves[i].From != yard.FreshWater && r.Moves[j].From == yard.FreshWater })
	for _, l := range n.Links {
		if left[l.Name] {
			r.Dry = append(r.Dry, l.Name)
		}
	}
	return r, nil
}

// mostNew is the first move of those that rinse most of what is left; one that goes round
// and round in a tank counts a little less.
func mostNew(candidates []Move, left map[string]bool) (best Move, found bool) {
	most := 0
	for _, m := range candidates {
		n := 2 * countNew(m, left)
		if m.From == m.To {
			n--
		}
		if n > most {
			best, most = m, n
		}
	}
	return best, most > 0
}

// allMoves lists the moves from the supply, then those from tanks.
func (n network) allMoves() []Move {
	var all []Move
	for _, from := range slices.Concat([]string{yard.FreshWater}, n.Tanks) {
		for _, to := range slices.Concat(n.Outlets, n.Tanks) {
			all = append(all, n.moves(from, to)...)
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
func (n network) rinse(m Move, left map[string]bool) RinseMove {
	out := RinseMove{Move: m}
	if m.From != yard.FreshWater {
		if fill := n.moves(yard.FreshWater, m.From); len(fill) > 0 {
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
