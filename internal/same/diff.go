package main

import (
	"fmt"
	"strconv"
	"strings"
)

// widest is how much of a line is shown, and around how much of what differs.
const (
	widest = 200
	around = 60
)

// textDifference shows the lines from the first that differs to the last; empty when the
// texts are the same.
func textDifference(before, after string) string {
	if before == after {
		return ""
	}
	b, a := strings.Split(before, "\n"), strings.Split(after, "\n")
	start := 0
	for start < len(b) && start < len(a) && b[start] == a[start] {
		start++
	}
	end := 0
	for end < len(b)-start && end < len(a)-start && b[len(b)-1-end] == a[len(a)-1-end] {
		end++
	}
	b, a = b[start:len(b)-end], a[start:len(a)-end]
	out := []string{fmt.Sprintf("from line %d:", start+1)}
	same := 0 // columns that the first lines have in common
	if len(b) > 0 && len(a) > 0 {
		for same < len(b[0]) && same < len(a[0]) && b[0][same] == a[0][same] {
			same++
		}
	}
	out = append(out, marked("- ", b, same)...)
	return strings.Join(append(out, marked("+ ", a, same)...), "\n")
}

// marked puts a mark before each of the first few lines.
func marked(mark string, lines []string, same int) []string {
	var out []string
	for i, l := range lines {
		if i == mostShown {
			return append(out, fmt.Sprintf("%sand %d more", mark, len(lines)-i))
		}
		if i == 0 && same > around && len(l) > widest {
			l = "..." + l[same-around:]
		}
		out = append(out, mark+clipped(l))
	}
	return out
}

// clipped makes a text safe and short enough to show.
func clipped(text string) string {
	more := len(text) > widest
	if more {
		text = text[:widest]
	}
	shown := strconv.QuoteToGraphic(text)
	shown = strings.ReplaceAll(shown[1:len(shown)-1], `\"`, `"`)
	if more {
		shown += "..."
	}
	return shown
}
