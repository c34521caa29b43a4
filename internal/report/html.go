package report

import (
	"fmt"
	"html"
	"io"
	"slices"
	"strings"
	"unicode/utf8"
)

// Page holds documents with pictures, printed on a page of its own.
type Page struct {
	Documents []*Document
	Pictures  []string // SVG, below the first document's tables
}

// Paper is a size that CSS knows.
type Paper string

// The papers of offices.
const (
	Letter Paper = "letter"
	A4     Paper = "A4"
)

// style prints in black and white, a sheet a page, nothing smaller than 14 points, to be read at arm's
// length. Lines have a height in points and tables a fixed layout, so that a page holds as much
// whichever font is there.
const style = `
@page { size: %s; margin: 10mm }
* { box-sizing: border-box }
body { margin: 0; font-family: "Liberation Sans", Arial, Helvetica, sans-serif; font-size: 14pt; line-height: 16pt; color: black; background: white }
section { break-after: page; break-inside: avoid; max-width: 190mm; margin: 0 auto }
section:last-of-type { break-after: auto }
h1 { font-size: 18pt; line-height: 21pt; margin: 0 0 1mm }
h1 ~ h1 { margin-top: 3mm }
h2 { font-size: 14pt; margin: 1mm 0 }
p { margin: 0 0 1mm }
table { border-collapse: collapse; width: 100%%; table-layout: fixed }
th, td { border: 0.4pt solid black; padding: 0 0.8mm; line-height: 16.5pt; text-align: left; overflow-wrap: anywhere }
th { border-bottom-width: 1.4pt }
td.number { text-align: right }
td.call { text-align: center; font-weight: bold; color: white; background: black; print-color-adjust: exact }
tr:nth-child(even) td:not(.call) { background: #eee }
svg { display: block; width: 100%%; height: auto; margin: 1mm auto 0 }
ul { margin: 1mm 0 0; padding-left: 5mm }
.cautions { font-weight: bold; margin-top: 1mm }
`

// HTML writes pages as one file that needs nothing from elsewhere.
func HTML(w io.Writer, title string, paper Paper, pages []Page) error {
	b := &strings.Builder{}
	fmt.Fprintf(b, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<title>%s</title>\n<style>", markup(title))
	fmt.Fprintf(b, style, paper)
	b.WriteString("</style>\n</head>\n<body>\n")
	for i := range pages {
		pages[i].write(b)
	}
	b.WriteString("</body>\n</html>\n")
	_, err := io.WriteString(w, b.String())
	return err
}

func (p *Page) write(b *strings.Builder) {
	b.WriteString("<section>\n")
	for i, d := range p.Documents {
		fmt.Fprintf(b, "<h1>%s</h1>\n", markup(d.Title))
		if i == 0 { // the headings of the others say enough
			fmt.Fprintf(b, "<p>%s</p>\n", markup(d.Verdict))
		}
		for i := range d.Tables {
			if !d.Tables[i].Quiet {
				writeTable(b, &d.Tables[i], i > 0 || d == p.Documents[0])
			}
		}
		if i == 0 {
			for _, picture := range p.Pictures {
				b.WriteString(picture)
				b.WriteByte('\n')
			}
		}
	}
	if notes := p.lines((*Document).notes); len(notes) > 0 {
		b.WriteString("<ul>\n")
		for _, l := range notes {
			fmt.Fprintf(b, "<li>%s</li>\n", markup(l))
		}
		b.WriteString("</ul>\n")
	}
	if cautions := p.lines(func(d *Document) []string { return d.Cautions }); len(cautions) > 0 {
		fmt.Fprintf(b, "<p class=\"cautions\">%s</p>\n", markup(strings.Join(cautions, " ")))
	}
	b.WriteString("</section>\n")
}

// widths are the parts of a table's width that its columns take: by their longest cell, or the
// longest word of their heading, which may break between words.
func widths(t *Table) []float64 {
	var all []float64
	sum := 0.0
	for i, c := range t.Columns {
		longest := 3
		for _, word := range strings.Fields(c.Label) {
			longest = max(longest, utf8.RuneCountInString(word))
		}
		for _, row := range t.Rows {
			for _, word := range strings.Split(row[i].Text, ", ") {
				longest = max(longest, utf8.RuneCountInString(word))
			}
		}
		if empty(t, i) {
			longest = roomToWrite
		}
		all = append(all, float64(longest)+1)
		sum += float64(longest) + 1
	}
	for i := range all {
		all[i] *= 100 / sum
	}
	return all
}

// roomToWrite is what a column for a pen has room for.
const roomToWrite = 20

// empty reports whether a column has no words.
func empty(t *Table, column int) bool {
	for _, row := range t.Rows {
		if row[column].Text != "" {
			return false
		}
	}
	return len(t.Rows) > 0
}

// writeTable writes a table, with its title where the heading above does not say as much.
func writeTable(b *strings.Builder, t *Table, titled bool) {
	if titled && t.Title != "" {
		fmt.Fprintf(b, "<h2>%s</h2>\n", markup(t.Title))
	}
	b.WriteString("<table>\n<colgroup>")
	for _, w := range widths(t) {
		fmt.Fprintf(b, `<col style="width:%.1f%%"/>`, w)
	}
	b.WriteString("</colgroup>\n<thead><tr>")
	for _, c := range t.Columns {
		fmt.Fprintf(b, "<th scope=\"col\">%s</th>", markup(c.Label))
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	right, texts := rightAligned(t), tableTexts(t)
	for n, row := range t.Rows {
		b.WriteString("<tr>")
		for i, v := range row {
			class := ""
			switch {
			case v.Call:
				class = ` class="call"`
			case right[i]:
				class = ` class="number"`
			}
			fmt.Fprintf(b, "<td%s>%s</td>", class, markup(texts[n+1][i]))
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody>\n</table>\n")
}

// lines are what the documents of a page say, each once.
func (p *Page) lines(of func(*Document) []string) []string {
	var lines []string
	for _, d := range p.Documents {
		for _, l := range of(d) {
			if !slices.Contains(lines, l) {
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// markup makes words safe in HTML.
func markup(text string) string { return html.EscapeString(Clean(text)) }
