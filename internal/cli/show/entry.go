package show

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// EntryText tells an entry of the journal in a few words.
func (v View) EntryText(e *journal.Entry) string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, v.Say(format, args...)) }
	if e.Volume != nil {
		add("%v", *e.Volume)
	}
	if salts := v.entryLiquid(e); salts != "" {
		add("%s", salts)
	}
	if e.Salt != nil {
		add("%v of salt", *e.Salt)
	}
	if e.Water != nil {
		add("%v of water", *e.Water)
	}
	if e.Reading != nil && e.Temp != nil {
		add("%s %v at %v", e.Scale, fmt.Sprintf("%.4g", *e.Reading), *e.Temp)
	}
	into := "in"
	if slices.Contains([]journal.Kind{journal.Transfer, journal.Delivery, journal.Correction}, e.Kind) {
		into = "to"
	}
	for _, p := range []struct{ word, name string }{{"from", e.From}, {into, e.Tank}, {"on", e.Truck}, {"for", e.Route}, {"by", e.Operator}} {
		if p.name != "" {
			add("%s %s", p.word, p.name)
		}
	}
	if e.Cost != nil {
		add("cost %v", *e.Cost)
	}
	parts = append(parts, v.someText(e)...)
	if e.Note != "" {
		add("%s", e.Note)
	}
	return strings.Join(parts, ", ")
}

// someText tells what only some kinds of entries have.
func (v View) someText(e *journal.Entry) []string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, v.Say(format, args...)) }
	switch {
	case e.Cancels > 0 && e.Kind == journal.Accept:
		add("accepts row %d", e.Cancels)
	case e.Cancels > 0:
		add("takes back %d", e.Cancels)
	}
	if e.Line != "" {
		add("through %s", e.Line)
	}
	if e.Ticket != "" {
		add("ticket %s", e.Ticket)
	}
	if e.Purity != nil {
		add("purity %v", *e.Purity)
	}
	if e.Moisture != nil {
		add("moisture %v", *e.Moisture)
	}
	if e.Hours != nil { // as it is typed, and as the file has it
		add("%s worked", fmt.Sprintf("%.4g h", float64(*e.Hours/(60*quantity.Minute))))
	}
	if e.Distance != nil {
		add("%v driven", *e.Distance)
	}
	if e.Due != nil {
		add("due %s", DayOrMinute(*e.Due))
	}
	return parts
}

// DayOrMinute shows a time, or the day alone where that is what was typed.
func DayOrMinute(t time.Time) string {
	if t.Hour() == 0 && t.Minute() == 0 {
		return t.Format(time.DateOnly)
	}
	return t.Format("2006-01-02 15:04")
}

// entryLiquid tells what was moved: its name, or its salts.
func (v View) entryLiquid(e *journal.Entry) string {
	if e.Liquid != "" {
		return e.Liquid
	}
	share := func(p *quantity.Strength) float64 {
		if p == nil {
			return 0
		}
		return float64(*p)
	}
	c := solution.Composition{NaCl: share(e.NaCl), KCl: share(e.KCl), CaCl2: share(e.CaCl2), MgCl2: share(e.MgCl2)}
	if c.Solute() == 0 {
		return ""
	}
	return v.Contents(balance.Liquid{Composition: c})
}
