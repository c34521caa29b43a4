package chart

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"
)

const (
	barWidth     = 50
	barLabelMost = 12
)

// bars draws a line for each bar, with its amount behind it.
func (c *Chart) bars(set *signs) []string {
	most, label := 0.0, 0
	for _, b := range c.Bars {
		most = math.Max(most, b.Value)
		label = max(label, min(barLabelMost, utf8.RuneCountInString(b.Label)))
	}
	lines := []string{strings.TrimSpace(c.Title + ", " + c.Y.Label)}
	for _, b := range c.Bars {
		name := []rune(b.Label)
		name = name[:min(len(name), barLabelMost)]
		lines = append(lines, fmt.Sprintf("  %-*s %s%s %s", label, string(name), set.wall, set.run(b.Value, most), wholeNumber(b.Value)))
	}
	return lines
}

// run is the length of a bar: whole cells, and the part of a last one where the set has
// signs for it. An amount above 0 shows at least its smallest sign.
func (s *signs) run(value, most float64) string {
	if !(value > 0) || most <= 0 {
		return ""
	}
	parts := len(s.bar)
	n := max(1, int(math.Round(value/most*barWidth*float64(parts))))
	text := strings.Repeat(s.bar[parts-1], n/parts)
	if rest := n % parts; rest > 0 {
		text += s.bar[rest-1]
	}
	return text
}

// wholeNumber shows an amount with commas between thousands.
func wholeNumber(x float64) string {
	text := fmt.Sprintf("%.0f", x)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
