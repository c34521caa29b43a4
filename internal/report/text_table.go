package report

import (
	"strings"
)

func (t *textWriter) table(table *Table) {
	cells, widths := laidOut(table)
	right := rightAligned(table)
	fold(right, cells, widths)
	t.line("")
	t.wrap("", table.Title)
	for n, line := range cells {
		t.row(right, line, widths)
		if n == 0 {
			t.line("  %s", strings.Repeat("-", sum(widths)+2*(len(widths)-1)))
		}
	}
}

// tableTexts are the texts of a table as it holds them, its head first.
func tableTexts(table *Table) [][]string {
	cells := [][]string{nil}
	for _, c := range table.Columns {
		cells[0] = append(cells[0], c.Label)
	}
	for _, row := range table.Rows {
		var line []string
		for _, v := range row {
			line = append(line, v.Text)
		}
		cells = append(cells, line)
	}
	even(cells, table.Rows)
	return cells
}

// columnWidths are those of the widest cells.
func columnWidths(cells [][]string) []int {
	widths := make([]int, len(cells[0]))
	for _, line := range cells {
		for i, cell := range line {
			widths[i] = max(widths[i], width(cell))
		}
	}
	return widths
}

// Width is the number of a terminal's columns that a table takes, with its headings folded
// and no word broken.
func Width(table *Table) int {
	_, widths := laidOut(table)
	return sum(widths) + 2*len(widths)
}

// laidOut returns a table's texts, safe to print, and the widths of its columns, with the
// headings folded.
func laidOut(table *Table) (cells [][]string, widths []int) {
	cells = tableTexts(table)
	for _, line := range cells {
		for i := range line {
			line[i] = Clean(line[i])
		}
	}
	widths = columnWidths(cells)
	foldHeads(cells, widths)
	return cells, widths
}

// foldHeads breaks headings that are wider than the cells below them into lines, those with
// the largest surplus first, until the table fits.
func foldHeads(cells [][]string, widths []int) {
	head, below := cells[0], make([]int, len(widths))
	for _, line := range cells[1:] {
		for i, cell := range line {
			below[i] = max(below[i], width(cell))
		}
	}
	for over := excess(widths); over > 0; over = excess(widths) {
		at, surplus, room := -1, 0, 0
		for i := range head {
			least := below[i]
			for _, word := range words(head[i]) {
				least = max(least, width(word))
			}
			if widths[i]-least > surplus {
				at, surplus, room = i, widths[i]-least, max(least, widths[i]-over)
			}
		}
		if at < 0 {
			return
		}
		head[at], widths[at] = breakWords(head[at], room), room
	}
}

// row writes the cells of a table's row, on as many lines as the longest of them takes.
func (t *textWriter) row(right []bool, cells []string, widths []int) {
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
			if right[i] {
				text += " " + strings.Repeat(" ", widths[i]-width(piece)) + piece + " "
			} else {
				text += " " + pad(piece, widths[i]) + " "
			}
		}
		t.line("%s", text)
	}
}

// narrowest is the width below which no column of words is folded.
const narrowest = 10

// excess is the number of columns by which a table is wider than a line.
func excess(widths []int) int { return sum(widths) + 2*len(widths) - (columns - 2) }

// fold breaks the words of the widest columns of text into lines, until the table fits:
// first the last column, where sentences stand.
func fold(right []bool, cells [][]string, widths []int) {
	for over := excess(widths); over > 0; over = excess(widths) {
		at := foldable(right, widths)
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
func foldable(right []bool, widths []int) int {
	last := len(widths) - 1
	if last > 0 && widths[last] > 2*narrowest && !right[last] {
		return last
	}
	at := -1
	for i, w := range widths {
		if w > narrowest && !right[i] && (at < 0 || w > widths[at]) {
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

// rightAligned are the columns of numbers, where some may be missing.
func rightAligned(table *Table) []bool {
	right := make([]bool, len(table.Columns))
	for _, row := range table.Rows {
		for i, v := range row {
			right[i] = right[i] || v.Number != nil
		}
	}
	return right
}
