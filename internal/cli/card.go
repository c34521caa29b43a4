package cli

import (
	"bytes"
	"fmt"
	"regexp"
	"strings"

	"brineyard/internal/chart"
	"brineyard/internal/picture"
	"brineyard/internal/report"

	"github.com/spf13/cobra"
)

type cardOptions struct {
	sheet, page, format choice
	ascii               *bool
}

// sheets are the parts of a card, in their order.
var sheets = []struct {
	name string
	make func(*setting) ([]*report.Document, error)
}{
	{"temperature", (*setting).temperatureSheet},
	{"correction", (*setting).correctionSheets},
	{"freezing", (*setting).freezingSheet},
	{"blends", (*setting).blendsSheet},
}

// Formats of a card beyond those of every command.
const (
	formatHTML = "html"
	formatSVG  = "svg"
	formatPNG  = "png"
)

func newCard(env *Env, g *globals) *cobra.Command {
	o := &cardOptions{page: choice{words: []string{"letter", "a4"}, value: "letter"}, sheet: choice{value: "all"}}
	for _, s := range sheets {
		o.sheet.words = append(o.sheet.words, s.name)
	}
	o.sheet.words = append(o.sheet.words, "all")
	for _, f := range report.Formats {
		o.format.words = append(o.format.words, f.Name)
	}
	o.format.value = o.format.words[0]
	o.format.words = append(o.format.words, formatHTML, formatSVG, formatPNG)
	cmd := &cobra.Command{
		Use:   "card",
		Short: "The shop's own reference sheets, for the wall",
		Long: "card makes sheets from the yard file: reading and temperature to true strength;\n" +
			"what corrects each mixing tank; strength, gravity and first solid with the\n" +
			"freezing diagram; the yard's blends. html is one file that prints a sheet a\n" +
			"page; svg and png are the diagram alone.",
		Example: "  brineyard card --sheet temperature\n" +
			"  brineyard card --format html --page a4",
		Args: noArguments,
		RunE: func(*cobra.Command, []string) error { return runCard(env, g, o) },
	}
	f := cmd.Flags()
	f.Var(&o.sheet, "sheet", "which: "+strings.Join(o.sheet.words, ", "))
	f.Var(&o.page, "page", "paper of the html: letter or a4")
	f.Var(&o.format, "format", "form of the card: "+strings.Join(o.format.words, ", "))
	o.ascii = asciiFlag(f)
	return cmd
}

func runCard(env *Env, g *globals, o *cardOptions) error {
	s, err := newSetting(env, g)
	if err != nil {
		return err
	}
	var all []*report.Document
	for _, sheet := range sheets {
		if o.sheet.value != "all" && o.sheet.value != sheet.name {
			continue
		}
		docs, err := sheet.make(s)
		if err != nil {
			return s.inputError(err)
		}
		all = append(all, docs...)
	}
	if len(all) == 0 {
		return usagef("--sheet %s: %s", o.sheet.value, "the yard file has no blends; allowed: temperature, correction, freezing")
	}
	switch o.format.value {
	case formatHTML:
		return s.writePages(all, o.page.value)
	case formatSVG, formatPNG:
		return s.writeDiagram(all, o)
	}
	d := oneDocument(all)
	d.ASCII = *o.ascii
	for _, f := range report.Formats {
		if f.Name == o.format.value {
			s.globals.Format = f
		}
	}
	return s.write(d)
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

// writePages writes the HTML.
func (s *setting) writePages(all []*report.Document, page string) error {
	paper := report.Letter
	if page == "a4" {
		paper = report.A4
	}
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
	if s.yard != nil && s.yard.Name != "" {
		title += ", " + s.yard.Name
	}
	return report.HTML(s.env.Out, title, paper, pages)
}

// inline makes a picture an element of a page, which sets itself what stands before: the
// declaration, the size and the namespaces.
func inline(svg string) string {
	head := regexp.MustCompile(`(?s)^.*?<svg [^>]*?(viewBox="[^"]*")[^>]*>`)
	return head.ReplaceAllString(svg, "<svg $1>")
}

// writeDiagram writes the picture alone.
func (s *setting) writeDiagram(all []*report.Document, o *cardOptions) error {
	var charts []chart.Chart
	for _, d := range all {
		charts = append(charts, d.Charts...)
	}
	if len(charts) == 0 {
		return usagef("--format %s: only the freezing sheet has a diagram; allowed: with --sheet freezing or all", o.format.value)
	}
	if o.format.value == formatPNG {
		if isTerminal(s.env.Out) {
			return usagef("--format png: a terminal shows no picture; allowed: into a file, like > diagram.png")
		}
		return picture.PNG(s.env.Out, charts)
	}
	return picture.SVG(s.env.Out, charts)
}

// forShop names the yard in a heading.
func (s *setting) forShop(what string) string {
	if s.yard == nil || s.yard.Name == "" {
		return what
	}
	return fmt.Sprintf("%s: %s", s.yard.Name, what)
}
