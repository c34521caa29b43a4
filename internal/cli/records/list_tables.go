package records

import (
	"fmt"
	"iter"
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// summaryTable tells each entry in a few words.
func summaryTable(v show.View, some iter.Seq[*journal.Entry], back map[int]int) report.Table {
	t := report.Table{Key: "summary", Title: "Entries", Columns: []report.Column{
		{Key: "entry", Label: "No."}, {Key: "time", Label: "Time"}, {Key: "kind", Label: "Kind"}, {Key: "what", Label: "What"},
	}}
	for e := range some {
		what := v.EntryText(e)
		if back[e.Number] != 0 {
			what += " (taken back)"
		}
		t.Rows = append(t.Rows, []report.Value{
			show.Count(e.Number), report.Word(e.Time.Format(minuteLayout)), report.Word(string(e.Kind)), report.Word(what),
		})
	}
	return t
}

// entriesTable has every column, for programs. Its rows are made as they are asked for.
func entriesTable(v show.View, some iter.Seq[*journal.Entry], back map[int]int) report.Table {
	t := report.Table{Key: "entries", Title: "Entries, in full", Quiet: true}
	for _, c := range entryColumns {
		t.Columns = append(t.Columns, report.Column{Key: c.key, Label: c.key})
	}
	t.Columns = append(t.Columns, report.Column{Key: "taken_back", Label: "taken_back"})
	t.Stream = func(yield func([]report.Value) bool) {
		row := make([]report.Value, 0, len(t.Columns))
		for e := range some {
			row = row[:0]
			for _, c := range entryColumns {
				row = append(row, c.value(v, e))
			}
			if !yield(append(row, report.Word(show.YesNo(back[e.Number] != 0)))) {
				return
			}
		}
	}
	return t
}

// hoursValue is a time that was worked, if any.
func hoursValue(d *quantity.Duration) report.Value {
	if d == nil {
		return report.Nothing("", "")
	}
	hours := float64(*d / (60 * quantity.Minute))
	return report.Number(hours, "h", fmt.Sprintf("%.4g h", hours))
}

// entryColumns are those of the table for programs.
var entryColumns = []struct {
	key   string
	value func(show.View, *journal.Entry) report.Value
}{
	{"entry", func(_ show.View, e *journal.Entry) report.Value { return show.Count(e.Number) }},
	{"time", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Time.Format(time.RFC3339)) }},
	{"kind", func(_ show.View, e *journal.Entry) report.Value { return report.Word(string(e.Kind)) }},
	{"tank", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Tank) }},
	{"from", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.From) }},
	{"liquid", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Liquid) }},
	{"volume", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Volume) }},
	{"nacl", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.NaCl) }},
	{"kcl", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.KCl) }},
	{"cacl2", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.CaCl2) }},
	{"mgcl2", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.MgCl2) }},
	{"temp", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Temp) }},
	{"scale", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Scale) }},
	{"reading", func(_ show.View, e *journal.Entry) report.Value {
		if e.Reading == nil {
			return report.Nothing("", "")
		}
		return report.Number(*e.Reading, "", fmt.Sprint(*e.Reading))
	}},
	{"salt", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Salt) }},
	{"water", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Water) }},
	{"operator", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Operator) }},
	{"truck", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Truck) }},
	{"route", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Route) }},
	{"cost", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Cost) }},
	{"cancels", func(_ show.View, e *journal.Entry) report.Value {
		if e.Cancels == 0 {
			return report.Nothing("", "")
		}
		return show.Count(e.Cancels)
	}},
	{"note", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Note) }},
	{"line", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Line) }},
	{"ticket", func(_ show.View, e *journal.Entry) report.Value { return report.Word(e.Ticket) }},
	{"purity", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Purity) }},
	{"moisture", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Moisture) }},
	{"hours", func(_ show.View, e *journal.Entry) report.Value { return hoursValue(e.Hours) }},
	{"distance", func(v show.View, e *journal.Entry) report.Value { return show.Optional(v, e.Distance) }},
	{"due", func(_ show.View, e *journal.Entry) report.Value {
		if e.Due == nil {
			return report.Nothing("", "")
		}
		return report.Word(e.Due.Format(time.RFC3339))
	}},
}
