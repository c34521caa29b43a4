package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"hash/crc32"
	"slices"
	"strings"
	"time"
)

// journalValue draws a journal and puts it into the folder: the demo's, one of its own,
// a damaged one, or a name under which none stands yet.
func journalValue(d *draft) string {
	d.choose(false)
	name, text := "journal.csv", ""
	switch draw := d.Float64(); {
	case draw < 0.04:
		return "new.csv"
	case draw < 0.055:
		return "no-such-folder/journal.csv"
	case draw < 0.3 && (d.place == nil || d.place == d.shared.sites[0]):
		name, text, d.entries = "winter.csv", d.shared.journal, 170
	default:
		text = d.history()
	}
	if d.chance(0.12) {
		text = d.damaged(text)
	}
	d.line.files[name] = text
	return name
}

// events are kinds of entries as often as they come, with the cells that they fill.
var events = []struct {
	kind  string
	cells []string
}{
	{"count", []string{"tank={storage} volume={volume} nacl={strength}", "tank={tank} volume={volume}", "tank=pile salt={delivered}", "tank={storage} volume={volume} liquid={bought}"}},
	{"batch", []string{"tank={mixing} volume={volume} nacl={close}", "tank={mixing} volume={volume} nacl={close} salt={charge} water={charge-water}", "tank={mixing} salt={charge} water={charge-water}"}},
	{"batch", []string{"tank={mixing} volume={volume} nacl={close} salt={charge} water={charge-water}"}},
	{"reading", []string{"tank={mixing} temp={temp} scale=hydrometer reading={hydrometer}", "tank={tank} temp={temp} scale=sg reading={sg}", "tank={mixing} temp={temp} scale=salometer reading={salometer}", "tank={tank} temp={temp} scale=weigh reading={weigh}", "tank={tank} temp={temp} scale=baume reading={baume}"}},
	{"transfer", []string{"from={mixing} tank={storage} volume={some-volume}", "from={tank} tank={tank} volume={some-volume}"}},
	{"load", []string{"from={storage} volume={some-volume} truck={truck} route={route}", "from={storage} volume={some-volume} liquid={load-liquid} truck={truck} route={route}", "from={tank} volume={some-volume} liquid={load-liquid} route={route}", "from={storage} volume={some-volume}"}},
	{"load", []string{"from={storage} volume={some-volume} truck={truck} route={route}", "from={storage} volume={some-volume} liquid={load-liquid} truck={truck} route={route}"}},
	{"delivery", []string{"tank=pile salt={delivered} cost={cost}", "tank={storage} liquid={bought} volume={volume} cost={cost}"}},
	{"correction", []string{"tank={tank} water={some-water}", "tank={mixing} salt={pinch}", "tank={tank} volume={some-volume} nacl={strength}", "tank={mixing} from={storage} volume={some-volume}"}},
	{"clean", []string{"tank={mixing}", "tank={tank} cost={cost}"}},
	{"note", []string{"note={note}"}},
	{"undo", []string{"cancels={entry}"}},
}

// history writes a journal of random events, with times that mostly rise.
func (d *draft) history() string {
	head, _, _ := strings.Cut(d.shared.journal, "\n")
	metric := d.chance(0.25)
	if metric {
		head = strings.NewReplacer("[gal]", "[L]", "[F]", "[C]", "[lb]", "[kg]").Replace(head)
	}
	names := strings.Split(head, ",")
	var out strings.Builder
	out.WriteString(head + "\n")
	at := time.Date(2025, 11, 3, 7, 30, 0, 0, time.FixedZone("", -5*3600))
	counted := 1 + d.IntN(4)
	d.entries = 3 + d.IntN(45)
	var cells map[string]string
	for n := range d.entries {
		if blended := cells["truck"] != "" && cells["liquid"] != ""; blended && d.chance(0.6) {
			// The other part of a truckload, out of another tank.
			at = at.Add(time.Duration(d.IntN(75)) * time.Minute)
			cells["from"] = d.value("storage")
			if d.chance(0.3) {
				cells["route"] = d.value("route")
			}
		} else {
			at = at.Add(time.Duration(d.IntN(3*24*60)) * time.Minute)
			cells = d.event(n < counted, metric)
		}
		if d.chance(0.03) {
			at = at.Add(-50 * time.Hour)
		}
		cells["time"] = at.Format(time.RFC3339)
		out.WriteString(checkedRow(names, n+1, cells))
	}
	return out.String()
}

// event draws the cells of an entry; a journal begins with counts.
func (d *draft) event(count, metric bool) map[string]string {
	e := events[0]
	if !count {
		e = pick(d.dice, events)
	}
	cells := map[string]string{"kind": e.kind, "operator": d.value("operator")}
	d.room = 0
	for _, c := range strings.Fields(pick(d.dice, e.cells)) {
		column, shape, _ := strings.Cut(c, "=")
		cells[column] = d.cell(column, shape, metric)
	}
	return cells
}

// cell draws what a cell of a journal holds: a number in the unit of its column, or words.
func (d *draft) cell(column, shape string, metric bool) string {
	kind, drawn := wholeRule(shape)
	a, isAmount := amounts[kind]
	isAmount = isAmount && drawn
	switch {
	case column == "cancels":
		return fmt.Sprint(1 + d.IntN(12))
	case kind == "close":
		x, _, _ := strings.Cut(d.value(pick(d.dice, []string{"near", "to", "strength"})), "%")
		return strings.TrimSpace(strings.TrimSuffix(x, "pct"))
	case kind == "volume":
		room := max(d.room, 300)
		a, isAmount = amount{"volume", 0.2 * room, 0.9 * room}, true
	}
	if !isAmount {
		return d.fill(shape)
	}
	u := dimensions[a.dimension][0]
	if metric && slices.Contains([]string{"volume", "water", "salt", "temp"}, column) {
		u = dimensions[a.dimension][1]
	}
	return d.digits(d.between(a.low, a.high)*u.factor + u.shift)
}

// checkedRow is a row of a journal with its check: CRC-32C of the text before it, in
// letters.
func checkedRow(names []string, number int, cells map[string]string) string {
	row := []string{fmt.Sprint(number)}
	for _, n := range names[1 : len(names)-1] {
		column, _, _ := strings.Cut(n, " [")
		row = append(row, cells[column])
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(row) // a buffer takes everything
	w.Flush()
	text := strings.TrimSuffix(b.String(), "\n")
	sum := crc32.Checksum([]byte(text), crc32.MakeTable(crc32.Castagnoli))
	check := ""
	for i := range 8 {
		check += string('a' + byte(sum>>(28-4*i))&0xf)
	}
	return text + "," + check + "\n"
}

// damaged is a journal after a loss of power, a careless hand or a spreadsheet.
func (d *draft) damaged(text string) string {
	rows := strings.SplitAfter(text, "\n")
	at := 1 + d.IntN(max(1, len(rows)-2))
	switch d.IntN(7) {
	case 0:
		return text + fmt.Sprint(len(rows), ",2026-01-1") // torn
	case 1:
		return strings.Join(slices.Delete(rows, at, at+1), "")
	case 2:
		return strings.Join(slices.Insert(rows, at, rows[at]), "")
	case 3:
		rows[at] = strings.Replace(rows[at], "1", "7", 1) // changed by hand
	case 4:
		rows[at] = "\"" + rows[at]
	case 5:
		return "\ufeff" + strings.ReplaceAll(text, "\n", "\r\n")
	default:
		rows[0] = strings.Replace(rows[0], "[gal]", "[barrel]", 1)
	}
	return strings.Join(rows, "")
}
