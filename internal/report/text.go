package report

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// columns is the width of the narrowest terminal that is served.
const columns = 80

// Text writes the document for a terminal of 80 columns: verdict, figures,
// tables, working, notes, cautions.
func Text(w io.Writer, d *Document) error {
	t := &textWriter{}
	t.wrap("", d.Verdict)
	t.figures(d.Figures)
	for i := range d.Tables {
		if !d.Tables[i].Quiet && !d.Tables[i].Long {
			t.table(&d.Tables[i])
		}
	}
	for i := range d.Charts {
		t.line("")
		for _, line := range d.Charts[i].Lines(d.ASCII) {
			t.line("%s", clean(line))
		}
	}
	t.drawings(d.Drawings)
	t.working(d.Working)
	t.remarks("Note: ", d.Notes)
	t.remarks("Caution: ", d.Cautions)
	if d.Next != "" {
		t.remarks("Next: ", []string{d.Next})
	}
	_, err := io.WriteString(w, t.String())
	return err
}

// drawings writes lines as they are, or wrapped where one is too long.
func (t *textWriter) drawings(lines []string) {
	if len(lines) > 0 {
		t.line("")
	}
	for _, l := range lines {
		if width(l) > columns {
			t.wrap("", l)
			continue
		}
		t.line("%s", clean(l))
	}
}

type textWriter struct{ strings.Builder }

func (t *textWriter) line(format string, args ...any) {
	t.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " "))
	t.WriteByte('\n')
}

// wrap writes text behind a head, in lines that fit, further lines indented by
// the head's width.
func (t *textWriter) wrap(head, text string) {
	indent := strings.Repeat(" ", width(head))
	line := head
	empty := true
	for _, word := range words(clean(text)) {
		if !empty && width(line)+1+width(word) > columns {
			t.line("%s", line)
			line, empty = indent, true
		}
		if !empty {
			line += " "
		}
		line += word
		empty = false
	}
	t.line("%s", line)
}

// words splits text where a line may break: not between a number and its unit.
func words(text string) []string {
	var out []string
	for _, word := range strings.Fields(text) {
		if n := len(out); n > 0 && isNumber(out[n-1]) && units[strings.TrimRight(word, ".,;:)")] {
			out[n-1] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

// units are those that stand behind a number with a space between.
var units = map[string]bool{
	"F": true, "C": true, "gal": true, "L": true, "lb": true, "kg": true, "min": true, "lb/gal": true,
	"kg/m3": true, "kg/L": true, "gal/min": true, "L/min": true, "deg": true, "mi": true, "km": true, "mph": true,
	"km/h": true, "gal/mi": true, "L/km": true, "gal/acre": true, "L/ha": true, "acre": true, "ft": true, "h": true,
}

func isNumber(word string) bool {
	return word != "" && strings.Trim(word, "-0123456789.,(") == "" && strings.ContainsAny(word, "0123456789")
}

func (t *textWriter) figures(figures []Figure) {
	label := 0
	for _, f := range figures {
		if !f.Quiet {
			label = max(label, width(f.Label))
		}
	}
	if label == 0 {
		return
	}
	t.line("")
	for _, f := range figures {
		if !f.Quiet {
			t.wrap("  "+pad(clean(f.Label), label)+"  ", f.Value.Text)
		}
	}
}

func (t *textWriter) table(table *Table) {
	cells := [][]string{nil}
	for _, c := range table.Columns {
		cells[0] = append(cells[0], clean(c.Label))
	}
	for _, row := range table.Rows {
		var line []string
		for _, v := range row {
			line = append(line, clean(v.Text))
		}
		cells = append(cells, line)
	}
	widths := make([]int, len(table.Columns))
	for _, line := range cells {
		for i, cell := range line {
			widths[i] = max(widths[i], width(cell))
		}
	}
	fold(table, cells, widths)
	t.line("")
	t.wrap("", table.Title)
	for n, line := range cells {
		t.row(table, line, widths)
		if n == 0 {
			t.line("  %s", strings.Repeat("-", sum(widths)+2*(len(widths)-1)))
		}
	}
}

// row writes the cells of a table's row, on as many lines as the longest of them takes.
func (t *textWriter) row(table *Table, cells []string, widths []int) {
	lines := 1
	for _, cell := range cells {
		lines = max(lines, strings.Count(cell, "\n")+1)
	}
	for n := range lines {
		text := " "
		for i, cell := range cells {
			piece := ""
			if pieces := strings.Split(cell, "\n"); n < len(pieces) {
				piece = pieces[n]
			}
			if rightAligned(table, i) {
				text += " " + strings.Repeat(" ", widths[i]-width(piece)) + piece + " "
			} else {
				text += " " + pad(piece, widths[i]) + " "
			}
		}
		t.line("%s", text)
	}
}

// narrowest is how far a column of words is folded, if need be.
const narrowest = 10

// fold breaks the words of the widest columns of text into lines, until the table fits:
// first the last column, where sentences stand.
func fold(table *Table, cells [][]string, widths []int) {
	for over := sum(widths) + 2*len(widths) - (columns - 2); over > 0; over = sum(widths) + 2*len(widths) - (columns - 2) {
		at := foldable(table, widths)
		if at < 0 {
			return
		}
		room := max(narrowest, widths[at]-over)
		for _, line := range cells {
			line[at] = breakWords(line[at], room)
		}
		widths[at] = room
	}
}

// foldable finds the column to fold: the last if it is long, else the widest of words; -1
// when none can be.
func foldable(table *Table, widths []int) int {
	last := len(widths) - 1
	if last > 0 && widths[last] > 2*narrowest && !rightAligned(table, last) {
		return last
	}
	at := -1
	for i, w := range widths {
		if w > narrowest && !rightAligned(table, i) && (at < 0 || w > widths[at]) {
			at = i
		}
	}
	return at
}

// breakWords puts line breaks into text so that it fits a width, within a word if it is
// longer than that.
func breakWords(text string, room int) string {
	var lines []string
	line := ""
	for _, word := range pieces(words(text), room) {
		if line != "" && width(line)+1+width(word) > room {
			lines, line = append(lines, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	return strings.Join(append(lines, line), "\n")
}

// pieces cuts words that are longer than the room.
func pieces(words []string, room int) []string {
	var out []string
	for _, word := range words {
		r := []rune(word)
		for len(r) > room {
			out, r = append(out, string(r[:room])), r[room:]
		}
		out = append(out, string(r))
	}
	return out
}

// rightAligned is true for a column of numbers, where some may be missing.
func rightAligned(table *Table, column int) bool {
	return slices.ContainsFunc(table.Rows, func(row []Value) bool { return row[column].Number != nil })
}

func (t *textWriter) working(steps []Step) {
	if len(steps) == 0 {
		return
	}
	t.line("")
	t.line("Working")
	for i, s := range steps {
		t.wrap(fmt.Sprintf("%3d. ", i+1), s.What)
		t.wrap("       ", s.Formula)
		switch {
		case s.Numbers != "" && s.Result != "":
			t.wrap("       ", s.Numbers+" = "+s.Result)
		case s.Result != "":
			t.wrap("       ", s.Result)
		}
	}
}

func (t *textWriter) remarks(head string, remarks []string) {
	if len(remarks) == 0 {
		return
	}
	t.line("")
	for _, r := range remarks {
		t.wrap(head, r)
	}
}

// Clean makes text safe to print, as every renderer does with what it is given.
func Clean(text string) string { return clean(text) }

// clean makes text safe to print: control characters and marks that reorder
// text, which could come from a name in a file, become a replacement character.
func clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

func width(text string) int { return utf8.RuneCountInString(text) }

func pad(text string, to int) string {
	return text + strings.Repeat(" ", max(0, to-width(text)))
}

func sum(numbers []int) int {
	total := 0
	for _, n := range numbers {
		total += n
	}
	return total
}
