package report

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// One heading, the verdict in bold, tables, and a section for each of the rest.
func TestMarkdown(t *testing.T) {
	d := sample()
	d.Working = d.Working[:2]
	requireText(t, `
# Tank check

**Do not pump: the hydrometer's 23.3% looks right, but at 40 F it is 22.65% true, too weak (below 23%).**

| Figure | Value |
| --- | --- |
| True strength | 22.65% |
| Salt to add | 40 lb |
| Salt falls out below | none down to -94 F |

## Charge

| Step | Volume | What |
| --- | --- | --- |
| 1 | 1,012 gal | water |
| 12 | - | rock salt |

## Working

1. Mass of brine: volume x density: 500 gal x 9.82 lb/gal = 4,910 lb
2. Density: brine of 22.65% at 40 F = 9.82 lb/gal

## Notes

- Yard file yard.toml, found in this folder.

## Cautions

- Salt falls out of brine above 24% before standard brine freezes, so do not go beyond the target.
- Mix well.
`, draw(t, Markdown, d))
}

// No empty tables and no sections without content.
func TestMarkdownOfVerdictAlone(t *testing.T) {
	quiet := []Figure{{Key: "a", Label: "A", Value: Word("b"), Quiet: true}}
	require.Equal(t, "# Freezing\n\n**Pump.**\n",
		draw(t, Markdown, &Document{Title: "Freezing", Verdict: "Pump.", Figures: quiet}))
}

func TestMarkdownEscapes(t *testing.T) {
	for text, want := range map[string]string{
		"a|b": `a\|b`, "*a*": `\*a\*`, "a_b_c": `a\_b\_c`, "`a`": "\\`a\\`",
		"<b>": "&lt;b>", "[a](b)": `\[a](b)`, `a\b`: `a\\b`,
		`\|`: `\\\|`, "a\nb": "a\ufffdb", "22.65%": "22.65%",
	} {
		require.Equal(t, want, escape(text), "%q", text)
	}
}

// Escapes stand wherever text does.
func TestMarkdownEscapesEverywhere(t *testing.T) {
	const x, safe = "a|b", `a\|b`
	d := &Document{
		Title: x, Verdict: x, Notes: []string{x}, Cautions: []string{x}, Working: []Step{{x, x, x, x}},
		Figures: []Figure{{Label: x, Value: Word(x)}},
		Tables:  []Table{{Title: x, Columns: []Column{{Label: x}}, Rows: [][]Value{{Word(x)}}}},
	}
	got := draw(t, Markdown, d)
	require.NotContains(t, got, x)
	require.Equal(t, 13, strings.Count(got, safe))
}

// bars counts the bars that divide cells: those without a backslash before them
// that is not itself escaped.
func bars(line string) int {
	count, escaped := 0, false
	for _, r := range line {
		if r == '|' && !escaped {
			count++
		}
		escaped = r == '\\' && !escaped
	}
	return count
}

// Whatever the cells hold, each row of a table has its columns and no more.
func TestMarkdownRowsKeepTheirCells(t *testing.T) {
	text := rapid.StringOf(rapid.SampledFrom([]rune(`|\|\ab `)))
	rapid.Check(t, func(t *rapid.T) {
		cell := Word(text.Draw(t, "cell"))
		label := text.Draw(t, "label")
		got := draw(t, Markdown, &Document{
			Figures: []Figure{{Label: label, Value: cell}},
			Tables:  []Table{{Columns: []Column{{Label: label}, {Label: "b"}}, Rows: [][]Value{{cell, cell}}}},
		})
		rows := 0
		for _, line := range strings.Split(got, "\n") {
			if strings.HasPrefix(line, "| ") {
				rows++
				require.Equal(t, 3, bars(line), "%q", line)
			}
		}
		require.Equal(t, 6, rows) // head, rule and row of two tables
	})
}
