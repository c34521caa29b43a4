package report

import (
	"io"
	"strconv"
	"strings"
)

// Markdown writes the document as markdown with one heading.
func Markdown(w io.Writer, d *Document) error {
	m := &strings.Builder{}
	m.WriteString("# " + escape(d.Title) + "\n\n**" + escape(d.Verdict) + "**\n")
	grid(m, []string{"Figure", "Value"}, figureRows(d.Figures))
	for i := range d.Tables {
		t := &d.Tables[i]
		if t.Quiet {
			continue
		}
		m.WriteString("\n## " + escape(t.Title) + "\n")
		cells := tableTexts(t)
		grid(m, cells[0], cells[1:])
	}
	for i := range d.Charts {
		m.WriteString(block(d.Charts[i].Lines(d.ASCII)))
	}
	if len(d.Drawings) > 0 {
		m.WriteString(block(d.Drawings))
	}
	if len(d.Working) > 0 {
		m.WriteString("\n## Working\n\n")
	}
	for i, s := range d.Working {
		m.WriteString(strconv.Itoa(i+1) + ". " + escape(s.line()) + "\n")
	}
	list(m, "Notes", d.notes())
	list(m, "Cautions", d.Cautions)
	if d.Next != "" {
		m.WriteString("\nNext: " + escape(d.Next) + "\n")
	}
	if d.Asked != "" {
		m.WriteString("\nAsked: " + escape(d.Asked) + "\n")
	}
	_, err := io.WriteString(w, m.String())
	return err
}

func figureRows(figures []Figure) [][]string {
	var rows [][]string
	for _, f := range figures {
		if !f.Quiet {
			rows = append(rows, []string{f.Label, f.Value.Text})
		}
	}
	return rows
}

func grid(m *strings.Builder, head []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	m.WriteByte('\n')
	cells(m, head)
	m.WriteString(strings.Repeat("| --- ", len(head)) + "|\n")
	for _, r := range rows {
		cells(m, r)
	}
}

func cells(m *strings.Builder, row []string) {
	for _, c := range row {
		m.WriteString("| " + escape(c) + " ")
	}
	m.WriteString("|\n")
}

func list(m *strings.Builder, title string, items []string) {
	if len(items) == 0 {
		return
	}
	m.WriteString("\n## " + title + "\n\n")
	for _, i := range items {
		m.WriteString("- " + escape(i) + "\n")
	}
}

// escape keeps text from acting as markdown or breaking a line.
func escape(text string) string {
	return strings.NewReplacer(
		"&", "&amp;", "#", `\#`, `\`, `\\`, "|", `\|`, "*", `\*`, "_", `\_`, "`", "\\`", "<", "&lt;", "[", `\[`,
	).Replace(Clean(text))
}

// block returns lines as a code block, which nothing in them can end.
func block(lines []string) string {
	text := ""
	for _, l := range lines {
		text += strings.ReplaceAll(strings.TrimRight(Clean(l), " "), "```", "'''") + "\n"
	}
	return "\n```text\n" + text + "```\n"
}
