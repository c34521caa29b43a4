package records

import (
	"fmt"
	"strings"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// entryText tells an entry in a few words: what every kind may have, then what only some
// have, and the note last.
func entryText(v show.View, e *journal.Entry) string {
	rest := *e
	rest.Note = ""
	if e.Kind == journal.Accept {
		rest.Cancels = 0
	}
	parts := append([]string{v.EntryText(&rest)}, someText(v, e)...)
	var said []string
	for _, p := range append(parts, e.Note) {
		if p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, ", ")
}

// someText tells what only some kinds of entries have.
func someText(v show.View, e *journal.Entry) []string {
	var parts []string
	add := func(format string, args ...any) { parts = append(parts, v.Say(format, args...)) }
	if e.Kind == journal.Accept && e.Cancels > 0 {
		add("accepts row %d", e.Cancels)
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
	if e.Hours != nil {
		add("%s worked", hoursText(*e.Hours))
	}
	if e.Distance != nil {
		add("%v driven", *e.Distance)
	}
	if e.Due != nil {
		add("due %s", dayOrMinute(*e.Due))
	}
	return parts
}

// hoursText shows a time that was worked in hours, as it is typed and as the file has it.
func hoursText(d quantity.Duration) string { return fmt.Sprintf("%.4g h", inHours(d)) }

func inHours(d quantity.Duration) float64 { return float64(d / (60 * quantity.Minute)) }

// dayOrMinute shows a time, or the day alone where that is what was typed.
func dayOrMinute(t time.Time) string {
	if t.Hour() == 0 && t.Minute() == 0 {
		return t.Format(dayLayout)
	}
	return t.Format(minuteLayout)
}
