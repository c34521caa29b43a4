// Package words puts words that come from outside, typed or out of a file, into messages, and
// finds the word that was meant. Quoted and OneLine return text that stays on one line and
// cannot command a terminal.
package words

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// longest is the number of runes of a word that a message shows: enough to recognise it.
const longest = 40

// Quoted puts quotes around a user's words. It escapes control characters and every space but
// the plain one, since two texts that look alike may differ in those, and shows the first 40
// runes of a longer text.
func Quoted(text string) string {
	if r := []rune(text); len(r) > longest {
		text = string(r[:longest]) + "..."
	}
	return strconv.Quote(text)
}

// OneLine keeps a message on one line. It escapes control characters rather than dropping
// them, so that the reader sees that there is one.
func OneLine(text string) string {
	var line strings.Builder
	for _, r := range strings.Join(strings.Fields(text), " ") {
		switch {
		case unicode.IsGraphic(r):
			line.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&line, `\u%04x`, r)
		default:
			fmt.Fprintf(&line, `\U%08x`, r)
		}
	}
	return line.String()
}

// Or lists what may be chosen from, the last behind "or".
func Or(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// Joined lists names in a sentence; an empty list gives none.
func Joined[S ~string](names []S, none string) string {
	if len(names) == 0 {
		return none
	}
	var list strings.Builder
	for i, n := range names {
		if i > 0 {
			list.WriteString(", ")
		}
		list.WriteString(string(n))
	}
	return list.String()
}
