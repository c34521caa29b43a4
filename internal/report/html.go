package report

import (
	"fmt"
	"html"
	"io"
	"strings"
)

// Page is a document with pictures, printed on a page of its own.
type Page struct {
	Document *Document
	Pictures []string // SVG
}

// Paper is a size that CSS knows.
type Paper string

// The papers of offices.
const (
	Letter Paper = "letter"
	A4     Paper = "A4"
)

// style prints in black and white, a sheet a page, to be read at arm's length.
const style = `
@page { size: %s; margin: 11mm }
* { box-sizing: border-box }
body { margin: 0; font-family: "Liberation Sans", Arial, Helvetica, sans-serif; font-size: 15pt; line-height: 1.25; color: black; background: white }
section { break-after: page; break-inside: avoid; max-width: 194mm; margin: 0 auto }
section:last-of-type { break-after: auto }
h1 { font-size: 20pt; margin: 0 0 2mm }
h2 { font-size: 14pt; margin: 3mm 0 1mm }
.pictured { font-size: 12.5pt }
p { margin: 0 0 2mm }
table { border-collapse: collapse; width: 100%% }
th, td { border: 0.4pt solid black; padding: 0.6mm 1.5mm; text-align: left }
th { border-bottom-width: 1.4pt }
td.number { text-align: right }
tr:nth-child(even) td { background: #eee }
svg { display: block; width: 94%%; height: auto; margin: 0 auto }
ul { margin: 2mm 0 0; padding-left: 5mm; font-size: 11pt }
ul.cautions { font-weight: bold }
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
	d := p.Document
	class := ""
	if len(p.Pictures) > 0 {
		class = ` class="pictured"`
	}
	fmt.Fprintf(b, "<section%s>\n<h1>%s</h1>\n<p>%s</p>\n", class, markup(d.Title), markup(d.Verdict))
	for i := range d.Tables {
		if !d.Tables[i].Quiet {
			writeTable(b, &d.Tables[i])
		}
	}
	for _, picture := range p.Pictures {
		b.WriteString(picture)
		b.WriteByte('\n')
	}
	bullets(b, "notes", d.notes())
	bullets(b, "cautions", d.Cautions)
	b.WriteString("</section>\n")
}

func writeTable(b *strings.Builder, t *Table) {
	if t.Title != "" {
		fmt.Fprintf(b, "<h2>%s</h2>\n", markup(t.Title))
	}
	b.WriteString("<table>\n<thead><tr>")
	for _, c := range t.Columns {
		fmt.Fprintf(b, "<th scope=\"col\">%s</th>", markup(c.Label))
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	right := rightAligned(t)
	for _, row := range t.Rows {
		b.WriteString("<tr>")
		for i, v := range row {
			class := ""
			if right[i] {
				class = ` class="number"`
			}
			fmt.Fprintf(b, "<td%s>%s</td>", class, markup(v.Text))
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody>\n</table>\n")
}

func bullets(b *strings.Builder, class string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(b, "<ul class=%q>\n", class)
	for _, l := range lines {
		fmt.Fprintf(b, "<li>%s</li>\n", markup(l))
	}
	b.WriteString("</ul>\n")
}

// markup makes words safe in HTML.
func markup(text string) string { return html.EscapeString(Clean(text)) }
