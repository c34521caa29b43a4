package move

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/run"
	"brineyard/internal/journal"
)

// entries are the lots that went into the first one's tank, and what brought it to target.
func (q *store) entries(out brine.StoreResult) []journal.Entry {
	if q.tank.Name == "" {
		return nil
	}
	var entries []journal.Entry
	last := len(q.from) - 1
	for i := range q.from[1:] {
		entries = append(entries, q.entry(i+1))
	}
	for range q.request.Batches - 1 {
		entries = append(entries, q.entry(last))
	}
	if out.Corrected {
		entries = append(entries, run.CorrectionEntries(q.tank.Name, q.request.Correction(out), out.Correction)...)
	}
	return entries
}

// entry is a lot that went into the tank: out of another tank of the yard, or from outside.
func (q *store) entry(i int) journal.Entry {
	lot := q.request.Lots[i]
	e := journal.Entry{Kind: journal.Correction, Tank: q.tank.Name, Volume: new(lot.Volume)}
	if q.from[i] != "" {
		e.Kind, e.From = journal.Transfer, q.from[i]
		return e
	}
	run.CompositionInto(&e, lot.Liquid)
	if _, plain := lot.Liquid.Strength(); !plain {
		e.Liquid = lot.Liquid.Name
	}
	return e
}
