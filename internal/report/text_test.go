package report

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// One of everything: verdict, figures under each other, a table with its numbers
// at the right, numbered working, notes, cautions. Quiet figures stay away.
func TestText(t *testing.T) {
	requireText(t, `
Do not pump: the hydrometer's 23.3% looks right, but at 40 F it is 22.65% true,
too weak (below 23%).

  True strength         22.65%
  Salt to add           40 lb
  Salt falls out below  none down to -94 F

Charge
  Step     Volume  What
  --------------------------
     1  1,012 gal  water
    12          -  rock salt

Working
  1. Mass of brine
       volume x density
       500 gal x 9.82 lb/gal = 4,910 lb
  2. Density
       brine of 22.65% at 40 F
       9.82 lb/gal
  3. Then mix
       an hour does it

Note: Yard file yard.toml, found in this folder.

Caution: Salt falls out of brine above 24% before standard brine freezes, so do
         not go beyond the target.
Caution: Mix well.
`, draw(t, Text, sample()))
}

func TestTextOfVerdictAlone(t *testing.T) {
	require.Equal(t, "Pump.\n", draw(t, Text, &Document{Verdict: "Pump."}))
	quiet := &Document{Verdict: "Pump.", Figures: []Figure{{Key: "a", Label: "A", Value: Word("b"), Quiet: true}}}
	require.Equal(t, "Pump.\n", draw(t, Text, quiet))
}

// Lines break at 80 columns, not one before: 40 and 39 letters fill a line with
// the space between them, 40 and 40 do not go on one. Columns are counted, not bytes: a
// wide letter takes two, an accent of its own none.
func TestTextBreaksAt80(t *testing.T) {
	for letter, wide := range map[string]int{"x": 1, "ü": 1, "u\u0308": 1, "水": 2} {
		word := strings.Repeat(letter, 40/wide)
		fits := strings.TrimSuffix(word, letter)
		require.Equal(t, word+" "+fits+"\n", draw(t, Text, &Document{Verdict: word + " " + fits}))
		require.Equal(t, word+"\n"+word+"\n", draw(t, Text, &Document{Verdict: word + " " + word}))
	}
}

// A word that fits no line is not cut, since a path must stay a path, and the
// words around it keep their lines.
func TestTextKeepsLongWords(t *testing.T) {
	long := strings.Repeat("x", 100)
	require.Equal(t, "See\n"+long+"\nthere.\n", draw(t, Text, &Document{Verdict: "See " + long + " there."}))
	require.Equal(t, long+"\n", draw(t, Text, &Document{Verdict: long}))
}

// A column is at the right when it holds numbers, else at the left, and no line
// ends in spaces.
func TestTextTable(t *testing.T) {
	d := &Document{Verdict: "V.", Tables: []Table{{
		Title:   "T",
		Columns: []Column{{Label: "Word"}, {Label: "N"}, {Label: "Last word"}},
		Rows: [][]Value{
			{Word("a"), Number(1, "", "1"), Word("b")},
			{Word("longer"), Number(100, "", "100"), Word("c")},
		},
	}}}
	requireText(t, `
V.

T
  Word      N  Last word
  ----------------------
  a         1  b
  longer  100  c
`, draw(t, Text, d))
	d.Tables[0].Rows = nil
	requireText(t, `
V.

T
  Word  N  Last word
  ------------------
`, draw(t, Text, d))
}

// A table that is too wide folds its headings before it breaks a word, and Width tells
// what it comes to.
func TestTableFoldsHeadingsFirst(t *testing.T) {
	table := Table{Title: "Wide", Columns: []Column{{Label: "Name"}}}
	row := []Value{Word("reserve=0gal")}
	for range 7 {
		table.Columns = append(table.Columns, Column{Label: "Very long heading"})
		row = append(row, Number(1, "gal", "1 gal"))
	}
	table.Rows = [][]Value{row}
	out := draw(t, Text, &Document{Verdict: "v", Tables: []Table{table}})
	require.Contains(t, out, "reserve=0gal")
	require.Contains(t, out, " long ")
	widest := 0
	for line := range strings.Lines(out) {
		widest = max(widest, utf8.RuneCountInString(strings.TrimRight(line, "\n")))
	}
	require.LessOrEqual(t, widest, 80)
	require.LessOrEqual(t, Width(&table), 80)
	table.Columns = append(table.Columns, table.Columns[1:4]...)
	table.Rows[0] = append(row, row[1:4]...)
	require.Greater(t, Width(&table), 80)
}
