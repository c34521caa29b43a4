package chart

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Any chart fits 80 columns, and with plain characters is ASCII.
func TestLinesFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float64Range(-1e6, 1e6)
		c := Chart{Title: "title", X: Axis{Label: "x"}, Y: Axis{Label: "y"}}
		if rapid.Bool().Draw(t, "bars") {
			for range rapid.IntRange(1, 15).Draw(t, "n") {
				c.Bars = append(c.Bars, Bar{rapid.StringMatching(`[a-z]{0,30}`).Draw(t, "label"), math.Abs(number.Draw(t, "value"))})
			}
		} else {
			for range rapid.IntRange(0, 3).Draw(t, "series") {
				s := Series{Name: "s", Mark: '*', Line: rapid.Bool().Draw(t, "line")}
				for range rapid.IntRange(0, 20).Draw(t, "points") {
					s.Points = append(s.Points, Point{number.Draw(t, "x"), number.Draw(t, "y")})
				}
				c.Series = append(c.Series, s)
			}
		}
		plain := rapid.Bool().Draw(t, "plain")
		for _, line := range c.Lines(plain) {
			if n := utf8.RuneCountInString(line); n > 80 {
				t.Fatalf("%d columns: %q", n, line)
			}
			for _, r := range line {
				if plain && r > '~' {
					t.Fatalf("%q is not plain: %q", r, line)
				}
			}
		}
	})
}

// The longest bar is whole, one of half its amount half as long, and nothing is nothing.
func TestBars(t *testing.T) {
	c := Chart{Title: "Made", Y: Axis{Label: "gal"}, Bars: []Bar{{"Nov", 1000}, {"Dec", 500}, {"Jan", 0}, {"Feb", 1}}}
	lines := c.Lines(true)
	require.Equal(t, "Made, gal", lines[0])
	for i, cells := range []int{50, 25, 0, 1} {
		require.Equal(t, cells, strings.Count(lines[i+1], "#"), lines[i+1])
	}
	require.Contains(t, lines[1], " 1,000")
	// With eighths the smallest amount takes one of them.
	require.Contains(t, c.Lines(false)[4], "▏ 1")
}

// A point stands where the numbers of the axes say.
func TestCurvePlacesPoints(t *testing.T) {
	c := Chart{Title: "t", X: Axis{Label: "x"}, Y: Axis{Label: "y"}, Series: []Series{{Name: "s", Mark: 'o', Points: []Point{{0, 0}, {10, 100}}}}}
	lines := c.Lines(true)
	top, bottom := lines[2], lines[2]
	for _, line := range lines[2:] {
		if strings.Contains(line, "o") && strings.Contains(line, "|") {
			bottom = line
		}
	}
	require.True(t, strings.HasSuffix(top, "o"), top)
	require.Contains(t, top, "100 |")
	require.Contains(t, bottom, "0 |o")
}

func TestNoPoints(t *testing.T) {
	require.Equal(t, []string{"t"}, (&Chart{Title: "t", Series: []Series{{Name: "s"}}}).Lines(false))
}
