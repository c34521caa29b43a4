package main

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
)

// line is what came of one comparison. Deviations are the program less the table.
type line struct {
	table, property    string
	values             int
	mean, worst, bound float64
	decimals           int
}

// row is one of a table, by heading.
type row map[string]string

// number reads a cell; false where it is empty.
func (r row) number(heading string) (float64, bool) {
	x, err := strconv.ParseFloat(r[heading], 64)
	return x, err == nil
}

// readTable reads a table, whose first lines name its source.
func readTable(folder, name string) ([]row, error) {
	f, err := os.Open(filepath.Join(folder, name))
	if err != nil {
		return nil, err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	cells, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var rows []row
	for _, c := range cells[1:] {
		one := row{}
		for i, h := range cells[0] {
			one[h] = c[i]
		}
		rows = append(rows, one)
	}
	return rows, nil
}

// compareAll makes every comparison, and complains of a table that none is made with.
func compareAll(folder string) ([]line, error) {
	used := map[string]bool{}
	var lines []line
	for _, c := range comparisons() {
		rows, err := readTable(folder, c.table)
		if err != nil {
			return nil, err
		}
		used[c.table] = true
		l := line{table: c.table, property: c.property, bound: c.bound, decimals: c.decimals}
		for _, r := range rows {
			d, ok, err := c.deviation(r)
			if err != nil {
				return nil, fmt.Errorf("%s: %v: %w", c.table, r, err)
			}
			if ok {
				l.values++
				l.mean += d
				l.worst = math.Max(l.worst, math.Abs(d))
			}
		}
		l.mean /= float64(max(1, l.values))
		lines = append(lines, l)
	}
	there, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil {
		return nil, err
	}
	for _, path := range there {
		if name := filepath.Base(path); !used[name] {
			return nil, fmt.Errorf("%s: nothing is compared with it", name)
		}
	}
	return lines, nil
}

// deviation is the program less the table, in the comparison's unit; false for a row that
// it does not concern.
func (c *comparison) deviation(r row) (float64, bool, error) {
	if c.salt != "" && r["salt"] != "" && r["salt"] != c.salt {
		return 0, false, nil
	}
	want, ok := r.number(c.column)
	if !ok || c.only != nil && !c.only(r) {
		return 0, false, nil
	}
	got, err := c.got(r)
	return got - want*c.scale, err == nil, err
}
