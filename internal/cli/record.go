package cli

import (
	"strconv"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/words"

	"github.com/spf13/pflag"
)

// recordFlags let a command write what it concluded into the journal.
type recordFlags struct {
	on       bool
	journal  *text
	operator text
}

func addRecordFlags(f *pflag.FlagSet) *recordFlags {
	r := &recordFlags{}
	f.BoolVar(&r.on, "record", false, "write what this concludes into the journal")
	r.journal = journalFlag(f)
	f.Var(&r.operator, "operator", "who records it")
	return r
}

// check refuses flags that mean nothing without --record, and --record without a tank.
func (r *recordFlags) check(tank string) error {
	switch {
	case r.on && tank == "":
		return usagef("--record: the journal needs to know which tank this is; allowed: with --tank and a name from the yard file")
	case !r.on && r.journal.given:
		return usagef("--journal %s: nothing is recorded without --record; allowed: both", words.Quoted(r.journal.value))
	case !r.on && r.operator.given:
		return usagef("--operator %s: nothing is recorded without --record; allowed: both", words.Quoted(r.operator.value))
	}
	return nil
}

// record writes entries, if that was asked for.
func (s *setting) record(r *recordFlags, command string, entries ...journal.Entry) error {
	if !r.on {
		return nil
	}
	for i := range entries {
		entries[i].Time, entries[i].Operator = s.env.Now(), r.operator.value
	}
	return s.keep(s.journalPath(r.journal), command, entries...)
}

func itoa(n int) string { return strconv.Itoa(n) }

// pointer makes optional what a row may leave out.
func pointer[T any](x T) *T { return &x }

// compositionInto notes what a liquid is.
func compositionInto(e *journal.Entry, l balance.Liquid) {
	c := l.Composition
	for _, p := range []struct {
		to **quantity.Strength
		w  float64
	}{{&e.NaCl, c.NaCl}, {&e.KCl, c.KCl}, {&e.CaCl2, c.CaCl2}, {&e.MgCl2, c.MgCl2}} {
		if p.w > 0 {
			*p.to = pointer(quantity.Strength(p.w))
		}
	}
	if _, plain := l.Strength(); plain && e.NaCl == nil {
		e.NaCl = pointer(quantity.Strength(0)) // water
	}
}

// batchEntry is a batch that was made as planned.
func batchEntry(tank string, r brine.BatchRequest, b brine.Batch) journal.Entry {
	return journal.Entry{
		Kind: journal.Batch, Tank: tank, Volume: pointer(r.Volume), NaCl: pointer(r.Target),
		Salt: pointer(b.SaltToUse), Water: pointer(b.Water), Note: "as planned",
	}
}

// drawnOff is where brine stands, to the journal, of which nobody said into which tank it
// was drawn.
const drawnOff = "drawn-off"

// correctionEntries are what a correction put in, after what it drew off.
func correctionEntries(tank string, r brine.CorrectRequest, c brine.Correction) []journal.Entry {
	var entries []journal.Entry
	if c.DrawOffFirst > 0 {
		entries = append(entries, journal.Entry{Kind: journal.Transfer, From: tank, Tank: drawnOff, Volume: pointer(c.DrawOffFirst), Note: "before a correction"})
	}
	e := journal.Entry{Kind: journal.Correction, Tank: tank}
	switch c.Additive {
	case brine.AnyAdditive:
		e = journal.Entry{Kind: journal.Note, Tank: tank, Note: "on target, nothing added"}
	case brine.AddWater:
		e.Water = pointer(c.Water)
	case brine.AddSalt:
		e.Salt = pointer(c.Salt)
	default:
		e.Volume, e.NaCl = pointer(c.Stock), pointer(r.Stock)
	}
	return append(entries, e)
}
