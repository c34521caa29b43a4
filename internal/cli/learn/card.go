package learn

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"brineyard/internal/chart"
	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/picture"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var cardCommand = run.Command{
	Use:   "card",
	Short: "The shop's own reference sheets, for the wall",
	Long: "card makes sheets for the wall from the yard file. One turns a reading and a\n" +
		"temperature into true strength. One tells what corrects each mixing tank. One\n" +
		"shows strength, gravity and first solid, with the freezing diagram. One shows\n" +
		"the yard's blends. html is one file that prints a sheet a page. svg and png\n" +
		"are the diagram alone.",
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
		return run.Reply{}, fault.Refuse("--sheet %s: the yard file has no blends; allowed: temperature, correction, freezing", q.sheet)
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
	for _, d := range all {
		p := report.Page{Document: d}
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
