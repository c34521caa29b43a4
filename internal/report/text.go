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
	if d.Short && len(d.Cautions) > 0 {
		t.wrap("Caution: ", d.Cautions[0])
	}
	t.figures(d.shown())
	for i := range d.Tables {
		if !d.Tables[i].Quiet && !d.Tables[i].Long {
			t.table(&d.Tables[i])
		}
	}
	for i := range d.Charts {
		t.line("")
		for _, line := range d.Charts[i].Lines(d.ASCII) {
			t.line("%s", Clean(line))
		}
	}
	t.drawings(d.Drawings)
	t.working(d.Working)
	t.ending(d)
	if d.Asked != "" {
		t.line("Asked: %s", Clean(d.Asked)) // on one line, however long, to be pasted
	}
	_, err := io.WriteString(w, t.String())
	return err
}

// ending writes the remarks under the figures. A short text has one note, and says so where there is more.
func (t *textWriter) ending(d *Document) {
	notes := d.notes()
	if !d.Short {
		t.remarks("Note: ", notes)
		t.remarks("Caution: ", d.Cautions)
		t.remarks("Next: ", next(d))
		return
	}
	t.remarks("Note: ", notes[:min(1, len(notes))])
	t.remarks("Next: ", next(d))
	const alike = 1 // a figure that says the first solid again
	hidden := len(d.Figures) - len(d.shown()) - quiet(d.Figures)
	if hidden > alike || len(notes) > 1 || len(d.Cautions) > 1 {
		t.wrap("More: ", "--all")
	}
}

// next is the line that leads on; none where there is none.
func next(d *Document) []string {
	if d.Next == "" {
		return nil
	}
	return []string{d.Next}
}

// shown are the figures of the text: of a short one without detail.
func (d *Document) shown() []Figure {
	if !d.Short {
		return d.Figures
	}
	return slices.DeleteFunc(slices.Clone(d.Figures), func(f Figure) bool { return f.Quiet || f.Detail })
}

// quiet counts the figures that no text shows.
func quiet(figures []Figure) int {
	n := 0
	for _, f := range figures {
		if f.Quiet {
			n++
		}
	}
	return n
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
		t.line("%s", Clean(l))
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
	for _, word := range words(Clean(text)) {
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
		end := strings.TrimRight(word, ".,;:)%")
		if n := len(out); n > 0 && isNumber(out[n-1]) && (units[end] || isGroup(end)) {
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

// isGroup reports whether a word may be a group of digits, as a metric crew sets them off.
func isGroup(word string) bool { return len(word) == 3 && strings.Trim(word, "0123456789") == "" }

func isNumber(word string) bool {
	return word != "" && strings.Trim(word, "-0123456789.,( ") == "" && strings.ContainsAny(word, "0123456789")
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
			t.wrap("  "+pad(Clean(f.Label), label)+"  ", f.Value.Text)
		}
	}
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

// Clean makes text safe to print, as every renderer does: control characters and marks that
// reorder text, which could come from a name in a file, become a replacement character.
func Clean(text string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) {
			return unicode.ReplacementChar
		}
		return r
	}, text)
}

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
