package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"
	"strings"
)

// CSV writes the document as comma-separated values: a block with the columns
// figure, value and unit that also carries verdict, notes and cautions, then a
// block for each table, set off by an empty line. Numbers are in full precision;
// a table's unit stands in a column of its own.
func CSV(w io.Writer, d *Document) error {
	rows := [][]string{{"figure", "value", "unit"}, {"verdict", d.Verdict, ""}}
	for _, f := range d.Figures {
		rows = append(rows, []string{f.Key, plain(f.Value), f.Value.Unit})
	}
	for _, s := range d.Working {
		rows = append(rows, []string{"working", s.line(), ""})
	}
	for _, n := range d.notes() {
		rows = append(rows, []string{"note", n, ""})
	}
	for _, c := range d.Cautions {
		rows = append(rows, []string{"caution", c, ""})
	}
	out := csv.NewWriter(w)
	for _, row := range rows {
		if err := out.Write(cleaned(row)); err != nil {
			return err
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return err
	}
	for i := range d.Tables {
		if _, err := io.WriteString(w, "\n"); err != nil {
			return err
		}
		if err := csvTable(out, &d.Tables[i]); err != nil {
			return err
		}
	}
	return nil
}

// csvTable writes a table, row by row, with its key in the first column and a unit column behind
// each column that has units.
func csvTable(out *csv.Writer, t *Table) error {
	unit := make([]bool, len(t.Columns))
	for row := range t.all() {
		for i, v := range row {
			unit[i] = unit[i] || v.Unit != ""
		}
	}
	cells := []string{"table"}
	for i, c := range t.Columns {
		cells = append(cells, c.Key)
		if unit[i] {
			cells = append(cells, c.Key+"_unit")
		}
	}
	if err := out.Write(cleaned(cells)); err != nil {
		return err
	}
	for row := range t.all() {
		cells = append(cells[:0], t.Key)
		for i, v := range row {
			cells = append(cells, plain(v))
			if unit[i] {
				cells = append(cells, v.Unit)
			}
		}
		if err := out.Write(cleaned(cells)); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func plain(v Value) string {
	if v.Number != nil {
		return digits(*v.Number)
	}
	return v.Word
}

// digits are all that a number has, without an exponent where there need be none: a million is no
// 1e+06.
func digits(x float64) string {
	const least, most = 1e-6, 1e15
	if a := math.Abs(x); a != 0 && (a < least || a >= most) {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// inert keeps a spreadsheet from running a cell of words as a formula, by the apostrophe
// that spreadsheets take for "this is text".
func inert(cell string) string {
	if cell == "" || !strings.ContainsRune("=+-@", rune(cell[0])) {
		return cell
	}
	if _, err := strconv.ParseFloat(cell, 64); err == nil {
		return cell
	}
	return "'" + cell
}

// cleaned makes the cells of a row safe to show, since a file may be listed on a terminal.
// A line break is kept: CSV quotes it.
func cleaned(row []string) []string {
	for i, cell := range row {
		if strings.Contains(cell, "\n") {
			lines := strings.Split(cell, "\n")
			for j := range lines {
				lines[j] = Clean(lines[j])
			}
			row[i] = inert(strings.Join(lines, "\n"))
			continue
		}
		row[i] = inert(Clean(cell))
	}
	return row
}
