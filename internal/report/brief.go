package report

import (
	"io"
	"strings"
)

// briefLength is what a text message holds.
const briefLength = 160

// Brief writes the answer as one sentence without a line break, for a text message: the verdict, or what of it fits.
func Brief(w io.Writer, d *Document) error {
	text := d.Brief
	if text == "" {
		text = d.Verdict
	}
	_, err := io.WriteString(w, shorten(Clean(strings.Join(strings.Fields(text), " ")))+"\n")
	return err
}

// shorten leaves out what stands in brackets, and then ends a text after a part of it that fits.
func shorten(text string) string {
	if width(text) < briefLength {
		return text
	}
	if text = unbracketed(text); width(text) < briefLength {
		return text
	}
	cut := []rune(text)[:briefLength-1]
	for _, mark := range []string{". ", "; ", ": ", ", ", " "} {
		if at := strings.LastIndex(string(cut), mark); at > 0 {
			return strings.TrimRight(string(cut)[:at], ".;:, ") + "."
		}
	}
	return string(cut)
}

// unbracketed leaves out what stands in brackets.
func unbracketed(text string) string {
	var out strings.Builder
	depth := 0
	for _, r := range text {
		switch {
		case r == '(':
			depth++
		case r == ')' && depth > 0:
			depth--
		case depth == 0:
			out.WriteRune(r)
		}
	}
	fixed := strings.Join(strings.Fields(out.String()), " ")
	return strings.NewReplacer(" ,", ",", " ;", ";", " .", ".", " :", ":").Replace(fixed)
}
