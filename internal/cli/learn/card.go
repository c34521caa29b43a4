package learn

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"
	"time"

	"brineyard/internal/chart"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/picture"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var cardCommand = run.Command{
	Use:   "card",
	Short: "The shop's own reference sheets, for the wall",
	Long: "card makes sheets for the wall from the yard file. One turns a reading and a\n" +
		"temperature into true strength. One tells what corrects each mixing tank. One\n" +
		"shows strength, gravity and first solid, with the freezing diagram. The last has\n" +
		"the yard's blends, the stick's chart, and room for numbers to call. html is one\n" +
		"file that prints four pages or more. svg and png are the diagram alone.",
	Example: "  brineyard card --sheet temperature\n" +
		"  brineyard card --format html --page a4",
	Args:      run.NoArguments,
	New:       func() run.Question { return &card{} },
	NoWorking: "No working: a card is read off; reading, correct and freeze show theirs.",
}

// card asks for the sheets.
type card struct {
	sheet  string
	page   report.Paper
	format report.Format // html, svg and png draw no document
	ascii  bool
	sheets sheets
}

// sheets makes the parts of a card from a yard's own numbers.
type sheets struct {
	view  show.View
	yard  *yard.Yard // nil when there is none
	band  yard.Band
	rock  yard.RockSalt
	glass gauge.Instrument
	made  string // when, for which yard and which glass
}

// parts of a card, in their order.
var parts = []struct {
	name string
	make func(*sheets) ([]*report.Document, error)
}{
	{"temperature", (*sheets).temperatureSheet},
	{"correction", (*sheets).correctionSheets},
	{"freezing", (*sheets).freezingSheet},
	{"blends", (*sheets).blendsSheet},
	{"stick", (*sheets).stickSheet},
	{"call", (*sheets).callSheet},
}

// everySheet asks for all of them.
const everySheet = "all"

// The formats of a card beyond those of every command.
const (
	formatHTML = "html"
	formatSVG  = "svg"
	formatPNG  = "png"
)

// Bind binds the request.
func (q *card) Bind(b *bind.Set) {
	var names []string
	for _, p := range parts {
		names = append(names, p.name)
	}
	names = append(names, everySheet)
	bind.OneOf(b, &q.sheet, "sheet", "which: "+strings.Join(names, ", "), everySheet, bind.Words(names...)...)
	bind.OneOf(b, &q.page, "page", "paper of the html: letter or a4", "letter",
		bind.Option[report.Paper]{Word: "letter", Means: report.Letter}, bind.Option[report.Paper]{Word: "a4", Means: report.A4})
	var formats []bind.Option[report.Format]
	for _, f := range append(report.Formats(),
		report.Format{Name: formatHTML}, report.Format{Name: formatSVG}, report.Format{Name: formatPNG}) {
		formats = append(formats, bind.Option[report.Format]{Word: f.Name, Means: f})
	}
	list := bind.OneOf(b, &q.format, "format", "", formats[0].Word, formats...)
	b.Flags().Lookup("format").Usage = "form of the card: " + strings.Join(list.Options(), ", ")
	bind.ASCII(b, &q.ascii)
	bind.YardBand(b, &q.sheets.band)
	bind.YardRockSalt(b, &q.sheets.rock)
	bind.YardGlass(b, &q.sheets.glass)
}

// Answer makes the sheets, and draws them where they are no document.
func (q *card) Answer(s *run.Session) (run.Reply, error) {
	q.sheets.view, q.sheets.yard = s.View, s.Yard
	q.sheets.made = q.sheets.madeOn(s.Env.Now())
	var all []*report.Document
	for _, p := range parts {
		if q.sheet != everySheet && q.sheet != p.name {
			continue
		}
		docs, err := p.make(&q.sheets)
		if err != nil {
			return run.Reply{}, err
		}
		all = append(all, docs...)
	}
	if len(all) == 0 {
		return run.Reply{}, fault.Refuse("--sheet %s: the yard file has none; allowed: temperature, correction, freezing, call", q.sheet)
	}
	switch q.format.Name {
	case formatHTML:
		return run.Reply{}, q.writePages(s, all)
	case formatSVG, formatPNG:
		return run.Reply{}, q.writeDiagram(s, all)
	}
	s.Globals.Format = q.format
	return run.Reply{Words: func(d *report.Document) {
		*d = *oneDocument(all)
		d.ASCII = q.ascii
	}}, nil
}

// oneDocument puts sheets together for the formats that have no pages.
func oneDocument(all []*report.Document) *report.Document {
	if len(all) == 1 {
		return all[0]
	}
	d := &report.Document{Command: "card", Title: "Card", Verdict: "The shop's sheets, from its own numbers; true strength is salt by weight."}
	seen := map[string]bool{}
	add := func(to *[]string, lines []string) {
		for _, l := range lines {
			if !seen[l] {
				*to = append(*to, l)
			}
			seen[l] = true
		}
	}
	for _, sheet := range all {
		d.Tables = append(d.Tables, sheet.Tables...)
		d.Charts = append(d.Charts, sheet.Charts...)
		add(&d.Notes, sheet.Notes)
		add(&d.Cautions, sheet.Cautions)
	}
	return d
}

// madeOn says when a sheet was made, for which yard, and for which glass.
func (k *sheets) madeOn(now time.Time) string {
	text, glass := "Made "+now.Format(time.DateOnly), "percent hydrometer"
	if k.yard != nil {
		if k.yard.Name != "" {
			text += " for " + k.yard.Name
		}
		if g, ok := k.yard.UsualGlass(gauge.PercentSalt); ok && g.Name != "" {
			glass = g.Name
		}
	}
	text += k.view.Say(". The glass: %s, marked for %v", glass, quantity.Temperature(k.glass.Calibration))
	if k.glass.Division > 0 {
		text += k.view.Say(", with a mark every %v", quantity.Strength(k.glass.Division))
	}
	return text + "."
}

// forShop names the yard in a heading.
func (k *sheets) forShop(what string) string {
	if k.yard == nil || k.yard.Name == "" {
		return what
	}
	return fmt.Sprintf("%s: %s", k.yard.Name, what)
}

// writePages writes the HTML.
func (q *card) writePages(s *run.Session, all []*report.Document) error {
	var pages []report.Page
	for i, d := range all {
		if last := len(pages) - 1; i > 0 && shares(pages[last], d) {
			pages[last].Documents = append(pages[last].Documents, d)
			continue
		}
		p := report.Page{Documents: []*report.Document{d}}
		if len(d.Charts) > 0 {
			var svg bytes.Buffer
			if err := picture.SVG(&svg, d.Charts); err != nil {
				return err
			}
			p.Pictures = append(p.Pictures, inline(svg.String()))
		}
		pages = append(pages, p)
	}
	title := "Brine card"
	if s.Yard != nil && s.Yard.Name != "" {
		title += ", " + s.Yard.Name
	}
	return report.HTML(s.Env.Out, title, q.page, pages)
}

// linesOfPage are those that the tables of several sheets may have on one page, with their headings:
// what the notes and cautions below them leave, on letter paper and in a wide font.
const linesOfPage = 31

// shares reports whether a sheet fits below those that stand on a page.
func shares(page report.Page, d *report.Document) bool {
	n := lines(d)
	for _, other := range page.Documents {
		n += lines(other)
	}
	return n <= linesOfPage && len(page.Pictures) == 0
}

// lines counts those of a sheet's tables, in which a list takes a line for each of its parts.
func lines(d *report.Document) int {
	const heading = 4
	n := heading
	for i := range d.Tables {
		for _, row := range d.Tables[i].Rows {
			most := 0
			for _, cell := range row {
				most = max(most, strings.Count(cell.Text, ", "))
			}
			n += 1 + most
		}
	}
	return n
}

// inline makes a picture an element of a page, which sets itself what stands before: the
// declaration, the size and the namespaces.
func inline(svg string) string {
	head := regexp.MustCompile(`(?s)^.*?<svg [^>]*?(viewBox="[^"]*")[^>]*>`)
	return head.ReplaceAllString(svg, "<svg $1>")
}

// writeDiagram writes the picture alone.
func (q *card) writeDiagram(s *run.Session, all []*report.Document) error {
	var charts []chart.Chart
	for _, d := range all {
		charts = append(charts, d.Charts...)
	}
	if len(charts) == 0 {
		return fault.Refuse("--format %s: only the freezing sheet has a diagram; allowed: with --sheet freezing or all", q.format.Name)
	}
	if q.format.Name == formatPNG {
		if run.IsTerminal(s.Env.Out) {
			return fault.Refuse("--format png: a terminal shows no picture; allowed: into a file, like > diagram.png")
		}
		return picture.PNG(s.Env.Out, charts)
	}
	return picture.SVG(s.Env.Out, charts)
}
