package run

// Entries of the journal that answers leave.

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// CompositionInto notes what a liquid is.
func CompositionInto(e *journal.Entry, l balance.Liquid) {
	c := l.Composition
	for _, p := range []struct {
		to **quantity.Strength
		w  float64
	}{{&e.NaCl, c.NaCl}, {&e.KCl, c.KCl}, {&e.CaCl2, c.CaCl2}, {&e.MgCl2, c.MgCl2}} {
		if p.w > 0 {
			*p.to = new(quantity.Strength(p.w))
		}
	}
	if _, plain := l.Strength(); plain && e.NaCl == nil {
		e.NaCl = new(quantity.Strength(0)) // water
	}
}

// ReadingEntry is a reading in a tank.
func ReadingEntry(tank string, r brine.ReadingResult) journal.Entry {
	return journal.Entry{
		Kind: journal.Reading, Tank: tank, Scale: r.Sample.Instrument.Scale.Name(), Reading: new(r.Sample.Instrument.Scale.ToRow(r.Sample.Reading)),
		Temp: new(r.Sample.Temperature), NaCl: new(r.True),
	}
}

// CorrectionEntries are what a correction put in, after what it drew off.
func CorrectionEntries(tank string, r brine.CorrectRequest, c brine.Correction) []journal.Entry {
	var entries []journal.Entry
	if c.DrawOffFirst > 0 {
		entries = append(entries, journal.Entry{Kind: journal.Transfer, From: tank, Tank: drawnOff, Volume: new(c.DrawOffFirst), Note: "before a correction"})
	}
	e := journal.Entry{Kind: journal.Correction, Tank: tank}
	switch c.Additive {
	case brine.AnyAdditive:
		e = journal.Entry{Kind: journal.Note, Tank: tank, Note: "on target, nothing added"}
	case brine.AddWater:
		e.Water = new(c.Water)
	case brine.AddSalt:
		e.Salt = new(c.Salt)
	default:
		e.Volume, e.NaCl = new(c.Stock), new(r.Stock)
	}
	return append(entries, e)
}

// drawnOff names, in the journal, the place of brine that was drawn off into no named tank.
const drawnOff = "drawn-off"
