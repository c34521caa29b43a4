package cold

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
)

// mixed is a blend, and what was asked of it.
type mixed struct {
	asked   *blend
	request brine.BlendRequest // with the shares and the base that were found
	made    brine.Blend        // with the amounts for the tank that it is mixed in, if any
	solved  *brine.Solved      // nil where nothing was to be found
}

// mix finds share and base, where they were asked for, and mixes.
func (q *blend) mix() (mixed, error) {
	m, err := mixed{asked: q, request: q.request}, error(nil)
	if q.iceAt != nil || q.keepClear != nil {
		m.solved, err = q.solve()
	} else {
		m.made, err = brine.NewBlend(q.request)
	}
	if err != nil {
		return mixed{}, err
	}
	if m.solved != nil {
		m.request, m.made = m.solved.Request, m.solved.Blend
	}
	if q.into.given() {
		m.made = q.into.amounts(m.made)
	}
	return m, nil
}

// solve finds what meets the temperatures that were given.
func (q *blend) solve() (*brine.Solved, error) {
	var solved brine.Solved
	var err error
	switch {
	case q.keepClear == nil:
		solved, err = brine.ShareForIce(q.request, *q.iceAt)
	case q.iceAt == nil:
		solved, err = brine.KeepClear(q.request, *q.keepClear)
	default:
		solved, err = brine.Meet(q.request, *q.iceAt, *q.keepClear)
	}
	if err == nil && q.into.given() && solved.Request.Parts[0].Amount < leastBase {
		err = fault.Input(fault.FieldIceAt, "that takes next to nothing of what stands in the tank; allowed: a warmer ice point")
	}
	return &solved, err
}

// leastBase is the smallest share of a tank's contents in a blend that is mixed in it.
const leastBase = 0.01

// entries are the additives that went into the tank.
func (m mixed) entries() []journal.Entry {
	if !m.asked.into.given() {
		return nil
	}
	var entries []journal.Entry
	for i, part := range m.request.Parts[1:] {
		e := journal.Entry{Kind: journal.Correction, Tank: m.asked.into.Name, Liquid: part.Liquid.Name, Volume: new(m.made.Amounts[i+1])}
		run.CompositionInto(&e, part.Liquid)
		entries = append(entries, e)
	}
	return entries
}
