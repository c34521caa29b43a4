package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
)

// eachTable draws a command that each can ask, and a table of lines of it.
func eachTable(d *draft) []string {
	var able []*command
	for _, c := range commands() {
		if c.each {
			able = append(able, c)
		}
	}
	of := d.of
	d.of = pick(d.dice, able)
	asked := d.of.name
	if d.of.yard {
		d.choose(true)
	}
	rows := d.tableRows(d.tableSize())
	text := d.tableText(rows)
	d.of = of
	if d.chance(0.35) {
		d.line.input = text
		return append([]string{asked}, pick(d.dice, [][]string{nil, {"-"}})...)
	}
	d.line.files["rows.csv"] = text
	return []string{asked, "rows.csv"}
}

// tableSize is mostly a few rows, and now and then more than are worked on in one go.
func (d *draft) tableSize() int {
	switch {
	case d.chance(0.02):
		return 300 + d.IntN(300)
	case d.chance(0.05):
		return 0
	case d.chance(0.15):
		return 10 + d.IntN(20)
	}
	return 1 + d.IntN(6)
}

// argsHeading is that of what stands without a flag.
const argsHeading = "args"

// tableRows draws lines of a command, as cells by heading.
func (d *draft) tableRows(n int) []map[string]string {
	// Rows of a table are mostly alike, so few shapes and one place are enough.
	shapes := []string{pick(d.dice, d.of.shapes), pick(d.dice, d.of.shapes)}
	var rows []map[string]string
	for i := range n {
		if i > 0 && d.chance(0.15) {
			rows = append(rows, rows[d.IntN(i)])
			continue
		}
		d.room, d.volume = 0, 0
		rows = append(rows, d.tableRow(pick(d.dice, shapes)))
	}
	return rows
}

// tableRow makes cells of a line. What each refuses is left out, but for a few.
func (d *draft) tableRow(shape string) map[string]string {
	row := map[string]string{}
	words := d.words(shape)
	refused := d.chance(0.003)
	for i := 0; i < len(words); i++ {
		name, isFlag := strings.CutPrefix(words[i], "--")
		switch {
		case !isFlag:
			row[argsHeading] = strings.TrimSpace(row[argsHeading] + " " + words[i])
		case d.of.isSwitch(words[i]):
			if name == "rinse" || refused {
				row[name] = "true"
			}
		default:
			i++
			if refused || !slices.Contains([]string{"journal", "operator"}, name) {
				row[name] = words[i]
			}
		}
	}
	if d.chance(0.015) && len(row) > 0 {
		row[pick(d.dice, sortedKeys(row))] = pick(d.dice, oddValues)
	}
	return row
}

// tableText writes rows as CSV, with columns in any order, columns of no flag, and now and
// then what spreadsheets do.
func (d *draft) tableText(rows []map[string]string) string {
	all := map[string]string{}
	for _, r := range rows {
		for name := range r {
			all[name] = ""
		}
	}
	names := sortedKeys(all)
	d.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	head := make([]string, len(names))
	for i, name := range names {
		head[i] = d.heading(name)
	}
	along := d.chance(0.4)
	if along {
		head = append([]string{"id"}, head...)
	}
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = d.chance(0.1)
	_ = w.Write(head) // a buffer takes everything
	for i, r := range rows {
		var cells []string
		if along {
			cells = append(cells, pick(d.dice, []string{fmt.Sprint(i + 1), "south, lower", "=1+1", ""}))
		}
		for _, name := range names {
			cells = append(cells, r[name])
		}
		_ = w.Write(cells)
	}
	w.Flush()
	return d.spoiled(out.String())
}

// heading is the name of a flag, now and then with a unit in brackets or spelled wrong.
func (d *draft) heading(name string) string {
	if name == argsHeading {
		return name
	}
	if a, ok := amounts[d.of.kindOf(name)]; ok && d.chance(0.25) {
		if u := pick(d.dice, dimensions[a.dimension]).name; u != "" {
			return name + " [" + u + "]"
		}
	}
	if d.chance(0.008) {
		return d.misspelled(name)
	}
	return name
}

// spoiled is CSV with a mark in front, cells too many, or a quote out of place.
func (d *draft) spoiled(text string) string {
	if !d.chance(0.08) {
		return text
	}
	switch d.IntN(5) {
	case 0:
		return "\ufeff" + text
	case 1:
		return text + "1,2,3,4,5,6,7,8,9,10,11,12\n"
	case 2:
		return text + "\"open\n"
	case 3:
		return strings.Replace(text, ",", ",temp,", 1) // a heading too many, perhaps there twice
	}
	return strings.TrimSuffix(text, "\n")
}

// sortedKeys are the keys of a map in an order that does not change.
func sortedKeys[V any](m map[string]V) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
