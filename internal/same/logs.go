package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"time"
)

// logColumn is a column of an old log: how it is mapped, with a heading and without, and
// what its cells hold.
type logColumn struct {
	share    float64
	heading  string
	mappings []string // of the column
	constant string   // mapping without a column; empty if there is none
	cell     func(d *draft) string
}

// logColumns are those that logs of this trade have.
var logColumns = []logColumn{
	{1, "Date", []string{"time=Date", "time=date"}, "", logTime},
	{0.3, "Type", []string{"kind=Type"}, "kind==batch", func(d *draft) string {
		return pick(d.dice, []string{"batch", "batch", "batch", "Batch", "count", "note"})
	}},
	{0.98, "Made", []string{"volume=Made:gal", "volume=Made:gal", "volume=Made:L", "volume=Made"}, "", func(d *draft) string {
		return pick(d.dice, []string{"{volume}", "190", "210", "195gal", "1,040"})
	}},
	{0.97, "Test", []string{"nacl=Test:%", "nacl=Test"}, "nacl==23.3%", func(d *draft) string { return pick(d.dice, []string{"{strength}", "23.4", "22.9", "23"}) }},
	{0.6, "Tank", []string{"tank=Tank"}, "tank=={mixing}", func(*draft) string { return "{mixing}" }},
	{0.4, "Salt (lb)", []string{"salt=Salt", "salt=Salt:lb", "salt=Salt (lb)"}, "", func(*draft) string { return "{salt}" }},
	{0.2, "Water [L]", []string{"water=Water"}, "", func(*draft) string { return "{some-water}" }},
	{0.4, "Who", []string{"operator=Who"}, "operator==Ash", func(*draft) string { return "{operator}" }},
	{0.4, "Remarks, if any", []string{`"note=Remarks, if any"`}, "note==of old", func(*draft) string { return "{note}" }},
	{0.2, "Paid", []string{"cost=Paid"}, "", func(*draft) string { return "{cost}" }},
}

// logTime is a time in one of the ways that logs have.
func logTime(d *draft) string {
	at := time.Date(2025, 11, 3, 6, 30, 0, 0, time.UTC).Add(time.Duration(d.IntN(130*24*60)) * time.Minute)
	if d.chance(0.004) {
		return "yesterday"
	}
	return at.Format(pick(d.dice, []string{"2006-01-02 15:04", "2006-01-02 15:04", "2006-01-02", "1/2/2006 15:04", "1/2/06", time.RFC3339}))
}

// importLog draws an old log, with the map that goes with it.
func importLog(d *draft) []string {
	var columns []logColumn
	var mappings []string
	for _, c := range logColumns {
		if d.chance(c.share) {
			columns = append(columns, c)
			mappings = append(mappings, d.fill(pick(d.dice, c.mappings)))
		} else if c.constant != "" && d.chance(0.95) {
			mappings = append(mappings, d.fill(c.constant))
		}
	}
	if d.chance(0.04) {
		mappings = append(mappings, pick(d.dice, []string{"beer=Date", "time=Day", "volume=Made:lb", "kind=="}))
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	var cells []string
	for _, c := range columns {
		cells = append(cells, c.heading)
	}
	_ = w.Write(cells) // a buffer takes everything
	for range 1 + d.IntN(8) {
		cells = cells[:0]
		for _, c := range columns {
			cells = append(cells, d.fill(c.cell(d)))
		}
		_ = w.Write(cells)
	}
	w.Flush()
	d.line.files["old.csv"] = d.spoiled(out.String())
	return []string{"old.csv", "--map", strings.Join(mappings, ",")}
}

// drillAnswers are the words of a drill, into which the answers of its own key are typed:
// as they are, wrong, or in another unit.
func drillAnswers(d *draft) []string {
	n := d.value("count-of-drill")
	set := []string{d.value("topic"), "--seed", d.value("minutes"), "--level", d.value("level")}
	d.choose(false)
	d.line.key = append(append([]string{"drill", "--print", n, "--key", "--format", "json"}, set...), d.globals...)
	return append(set, "--count", n)
}

// typed makes what a person types of the answers in a key.
func typed(seed int, answers []string) string {
	d := newDraft(nil, uint64(seed), 0)
	var b strings.Builder
	for _, a := range answers {
		a = strings.ReplaceAll(a, ",", "")
		number, unit, _ := strings.Cut(a, " ")
		var x float64
		if _, err := fmt.Sscan(strings.TrimSuffix(number, "%"), &x); err == nil {
			percent := strings.TrimPrefix(number, strings.TrimSuffix(number, "%"))
			x *= pick(d.dice, []float64{1, 1, 1, 1.004, 0.97, 1.2, 2})
			a = fmt.Sprintf("%.5g%s %s", x, percent, pick(d.dice, []string{unit, unit, unit, "", "furlongs"}))
		} else if d.chance(0.3) {
			a = pick(d.dice, []string{"no", "S1", "yes", "dry run", "good"})
		}
		b.WriteString(strings.TrimSpace(a) + "\n")
	}
	return b.String()
}
