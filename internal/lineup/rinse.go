package lineup

import (
	"slices"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
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
	// move draws from fresh water, or where a hose has to do it.
	Fill *Move
	// New are the links that this move rinses first.
	New []string
	// Holds is what its way holds, and Water what runs through it; 0 where the yard file does not say.
	Holds, Water quantity.Volume
}

// rinseTimes is how many times what a way holds runs through it. Common practice, no source.
const rinseTimes = 3

// PlanRinse finds moves that pass fresh water through every valve, every line and
// the pump, few of them: first what the supply's own pressure drives, through pumps that stand still and into tanks that
// may be full, then what a pump draws from the supply or the fresh-water tank, and last what it draws from a tank that was emptied for it.
// Errors: InputError when there is nothing to rinse.
func PlanRinse(plumbing yard.Plumbing) (Rinse, error) {
	n := network{Plumbing: plumbing, pump: plumbing.AllPumps()[0]}
	if len(n.Links) == 0 {
		return Rinse{}, fault.Input(fault.FieldRinse, "the plumbing has no valves and no lines; allowed: with them in the yard file")
	}
	left := map[string]bool{}
	for _, l := range n.Links {
		if !(yard.IsFresh(l.A) && yard.IsFresh(l.B)) { // nothing but water ever was in that
			left[l.Name] = true
		}
	}
	var r Rinse
	for _, candidates := range [][]Move{n.flushes(), n.pumpedFrom(yard.FreshWater, yard.WaterTank), n.pumpedFrom(n.Tanks...)} {
		for best, found := mostNew(candidates, left); found; best, found = mostNew(candidates, left) {
			r.Moves = append(r.Moves, n.rinse(best, left))
		}
	}
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

// flushes are ways on which the supply's own pressure drives water, past pumps that stand still or through them, as it does
// through one with a wheel (common practice, no source). Those to an outlet come first: there the end can be read.
func (n network) flushes() (all []Move) {
	still := network{Plumbing: n.Plumbing, pump: yard.Pump{Name: noPump}}
	for _, to := range slices.Concat(n.Outlets, n.Tanks) {
		var some []Move
		try := func(m Move) {
			if m.From, m.To = yard.FreshWater, to; still.judgeMove(&m) {
				some = append(some, m)
			}
		}
		for _, p := range n.AllPumps() {
			through := network{Plumbing: n.Plumbing, pump: p}
			discharge := through.paths(p.Out(), to)
			for _, suction := range through.paths(yard.FreshWater, p.In()) {
				for _, d := range discharge {
					try(Move{Still: true, Pump: p, Path: slices.Concat(suction, d)})
				}
			}
		}
		for _, path := range n.paths(yard.FreshWater, to) {
			try(Move{Pump: n.pump, Path: path})
		}
		sortByValves(some)
		all = append(all, some...)
	}
	return all
}

// pumpedFrom lists the moves from some places.
func (n network) pumpedFrom(places ...string) (all []Move) {
	for _, from := range places {
		for _, to := range slices.Concat(n.Outlets, n.Tanks) {
			all = append(all, n.byAnyPump(from, to)...)
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
	out := RinseMove{Move: m, Holds: m.Holds()}
	out.Water = rinseTimes * out.Holds
	if !yard.IsFresh(m.From) {
		if fill := n.byAnyPump(yard.FreshWater, m.From); len(fill) > 0 {
			out.Fill = &fill[0]
			out.mark(fill[0].Path, left)
		}
	}
	out.mark(m.Path, left)
	return out
}

// Holds is what the lines and valves of a move hold by the yard file.
func (m Move) Holds() (v quantity.Volume) {
	for _, h := range m.Path {
		v += h.Link.Holds
	}
	return v
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
