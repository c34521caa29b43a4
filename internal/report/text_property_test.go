package report

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawWord draws up to 59 letters, ASCII and not.
func drawWord(t *rapid.T) string {
	letters := rapid.RuneFrom([]rune("abcxyz019.,%()äß水"))
	return rapid.StringOfN(letters, 1, 59, -1).Draw(t, "word")
}

func drawSentence(t *rapid.T) string {
	words := make([]string, rapid.IntRange(1, 12).Draw(t, "words"))
	for i := range words {
		words[i] = drawWord(t)
	}
	return strings.Join(words, " ")
}

// drawShort draws a label, or a cell of a table.
func drawShort(t *rapid.T, most int) string {
	return rapid.StringOfN(rapid.RuneFrom([]rune("abc 12ä")), 0, most, -1).Draw(t, "short")
}

// drawTable draws a table that has a chance to fit: tables are not wrapped.
func drawTable(t *rapid.T) Table {
	table := Table{Title: drawShort(t, 60)}
	for range rapid.IntRange(1, 3).Draw(t, "columns") {
		table.Columns = append(table.Columns, Column{Label: drawShort(t, 20)})
	}
	for range rapid.IntRange(0, 3).Draw(t, "rows") {
		var row []Value
		for range table.Columns {
			row = append(row, Number(1, "", drawShort(t, 20)))
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

func drawDocument(t *rapid.T) *Document {
	d := &Document{Verdict: drawSentence(t), Tables: []Table{drawTable(t)}}
	for range rapid.IntRange(0, 3).Draw(t, "entries") {
		d.Figures = append(d.Figures, Figure{Label: drawShort(t, 16), Value: Number(1, "", drawSentence(t))})
		d.Notes = append(d.Notes, drawSentence(t))
		d.Cautions = append(d.Cautions, drawSentence(t))
		d.Working = append(d.Working, Step{drawSentence(t), drawSentence(t), drawSentence(t), drawSentence(t)})
	}
	return d
}

// A terminal of 80 columns shows every line whole, and no line ends in spaces.
// Labels of 16 with words of 59, behind an indent and a gap of 2, are the widest
// that can fit.
func TestTextFits80Columns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, line := range strings.Split(draw(t, Text, drawDocument(t)), "\n") {
			require.LessOrEqual(t, utf8.RuneCountInString(line), 80, "%q", line)
			require.Equal(t, strings.TrimRight(line, " "), line)
		}
	})
}

// Wrapping changes spaces alone: every word comes out, in order.
func TestTextLosesNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		verdict, note := drawSentence(t), drawSentence(t)
		got := strings.Fields(draw(t, Text, &Document{Verdict: verdict, Notes: []string{note}}))
		require.Equal(t, strings.Fields(verdict+" Note: "+note), got)
	})
}

// hostile is text as it could come from a name in a file: escapes that colour,
// clear or scroll a terminal, marks that reorder it, ends of lines.
var hostile = []rune("\x00\a\b\t\n\v\f\r\x1b\x7f\u0080\u009b\u00ad\u061c\u200b\u200e\u200f" +
	"\u202a\u202b\u202c\u202d\u202e\u2060\u2066\u2067\u2068\u2069\ufeff\ufff9\U000e0001ab |*_`<[\\水")

func drawHostile(t *rapid.T) string {
	return rapid.StringOfN(rapid.RuneFrom(hostile), 0, 30, -1).Draw(t, "hostile")
}

// hostileDocument has hostile text wherever a name from outside can get. The
// labels of figures are the program's own.
func hostileDocument(t *rapid.T) *Document {
	return &Document{
		Title:    drawHostile(t),
		Verdict:  drawHostile(t),
		Figures:  []Figure{{Label: "Tank", Value: Word(drawHostile(t))}},
		Working:  []Step{{drawHostile(t), drawHostile(t), drawHostile(t), drawHostile(t)}},
		Notes:    []string{drawHostile(t)},
		Cautions: []string{drawHostile(t)},
		Tables: []Table{{
			Title:   drawHostile(t),
			Columns: []Column{{Label: drawHostile(t)}, {Label: "Two"}},
			Rows:    [][]Value{{Word(drawHostile(t)), Word(drawHostile(t))}},
		}},
	}
}

// What people read holds no control character but the ends of its own lines, and
// no mark that reorders it.
func TestHostileTextIsDisarmed(t *testing.T) {
	for _, render := range []Renderer{Text, Markdown} {
		rapid.Check(t, func(t *rapid.T) {
			got := draw(t, render, hostileDocument(t))
			require.True(t, utf8.ValidString(got))
			for _, r := range got {
				require.False(t, r != '\n' && unicode.IsControl(r), "%U", r)
				require.False(t, unicode.Is(unicode.Cf, r), "%U", r)
			}
		})
	}
}

// A name cannot add a line of its own, such as a verdict.
func TestNameAddsNoLine(t *testing.T) {
	name := "mixer\nPump: all is well.\r\nPump\vPump\fPump\u0085Pump"
	for _, render := range []Renderer{Text, Markdown} {
		plain := draw(t, render, &Document{Verdict: "Hold.", Notes: []string{"mixer"}, Figures: []Figure{{Label: "Tank", Value: Word("mixer")}}})
		got := draw(t, render, &Document{Verdict: "Hold.", Notes: []string{name}, Figures: []Figure{{Label: "Tank", Value: Word(name)}}})
		require.Equal(t, strings.Count(plain, "\n"), strings.Count(got, "\n"), got)
		require.Contains(t, got, "mixer\ufffdPump")
	}
}

// Bytes that are no UTF-8 do not get through either.
func TestInvalidUTF8IsReplaced(t *testing.T) {
	require.Equal(t, "a\ufffdb\n", draw(t, Text, &Document{Verdict: "a\xffb"}))
	require.Equal(t, "a\ufffdb\n", draw(t, Text, &Document{Verdict: "a\x9bb"})) // a C1 escape in Latin-1
}
