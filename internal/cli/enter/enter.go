// Package enter holds entries of the journal against the yard file, the clock and the
// entries before them, before they are written down.
package enter

import (
	"fmt"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Desk is where entries are written down: what they are held against.
type Desk struct {
	Yard *yard.Yard // nil without a file
	View show.View  // in whose units a refusal speaks
	Now  time.Time
	// AsSeen lets an entry stand that contradicts the others, because it was seen so. It does
	// not let one stand that is to come, or that no yard can have.
	AsSeen bool
	// Old is set for the rows of an older log: they may come in any order, long afterwards.
	Old bool
}

// Refusal is why an entry is not written down.
type Refusal struct {
	Entry int    // its place among those that were to be added, from 0
	Field string // of the entry, as the journal's column is called; empty for the whole of it
	Said  string // what stands in that field, quoted; empty where the words say it
	Text  string // what is wrong, and what is allowed
}

// Error says where and what.
func (r Refusal) Error() string {
	at := r.Field
	if r.Said != "" {
		at += " " + r.Said
	}
	if at == "" {
		return r.Text
	}
	return at + ": " + r.Text
}

// Flag says the same with the flag that typed the field.
func (r Refusal) Flag() string {
	flags := map[string]string{"time": "at", "nacl": "strength"}
	if r.Field == "" {
		return r.Error()
	}
	if flag, other := flags[r.Field]; other {
		r.Field = flag
	}
	return "--" + r.Error()
}

// refuse makes a refusal. The words are a format for quantities in the user's units.
func (d Desk) refuse(field, said, format string, args ...any) *Refusal {
	if said != "" {
		said = words.Quoted(said)
	}
	return &Refusal{Field: field, Said: said, Text: d.View.Say(format, args...)}
}

// stamp shows a time of an entry.
func stamp(t time.Time) string { return t.Format("2006-01-02 15:04") }

// entryText names an entry that stands in the journal.
func entryText(number int, at time.Time) string {
	return fmt.Sprintf("entry %d of %s", number, stamp(at))
}

// Fits finds the entries that the clock or the yard file contradicts, and gives the names in
// the others the spelling of the yard file.
func (d Desk) Fits(entries []journal.Entry) []Refusal {
	var all []Refusal
	for i := range entries {
		if r := d.fits(&entries[i]); r != nil {
			r.Entry = i
			all = append(all, *r)
		}
	}
	return all
}

func (d Desk) fits(e *journal.Entry) *Refusal {
	for _, rule := range []func(Desk, *journal.Entry) *Refusal{
		Desk.Names, Desk.notToCome, Desk.due, Desk.mixed, Desk.bed, Desk.capacity, Desk.truck,
	} {
		if r := rule(d, e); r != nil {
			return r
		}
	}
	return nil
}
