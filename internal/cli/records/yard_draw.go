package records

import (
	"fmt"
	"slices"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

var yardDrawCommand = run.Command{
	Use:   "draw",
	Short: "The plumbing as a diagram of text, the pump in the middle",
	Long: "draw shows the lines and valves in the yard file. The suction stands on the\n" +
		"left, the discharge on the right. A [name] is a valve. A (name) is a line.",
	Example:   "  brineyard yard draw\n  brineyard yard draw --yard north.toml",
	Args:      run.NoArguments,
	New:       func() run.Question { return &yardDraw{} },
	NoWorking: "No working: the plumbing is drawn as the file has it.",
}

type yardDraw struct{}

// Bind asks for a yard file with a plumbing.
func (*yardDraw) Bind(b *bind.Set) {
	b.Then(needsYard)
	b.Then(func(s *bind.Scope) error {
		if len(s.Yard.Plumbing.Links) == 0 {
			return fault.Refuse("%s tells no lines and valves; allowed: a yard file with [[line]] and [[valve]]", s.Yard.Path)
		}
		return nil
	})
}

// Answer draws it.
func (*yardDraw) Answer(s *run.Session) (run.Reply, error) {
	pumps, besides := lineup.Draw(s.Yard.Plumbing)
	return run.Reply{
		Figures: []report.Figure{
			show.Quiet(report.Figure{Key: "valves", Label: "Valves", Value: show.Count(len(s.Yard.Plumbing.Valves()))}),
			show.Quiet(report.Figure{Key: "links", Label: "Lines and valves", Value: show.Count(len(s.Yard.Plumbing.Links))}),
		},
		Words: func(d *report.Document) {
			d.Title, d.Verdict = "Plumbing", fmt.Sprintf("%s: suction on the left, discharge on the right.", s.Yard.Path)
			for i, pump := range pumps {
				if i > 0 {
					d.Drawings = append(d.Drawings, "")
				}
				d.Drawings = append(d.Drawings, pumpDrawing(pump)...)
			}
			if len(besides) > 0 {
				d.Drawings = append(append(d.Drawings, ""), besideDrawing(besides)...)
			}
			if !people(s) {
				d.Tables = []report.Table{linkTable(s.Yard.Plumbing)}
			}
			d.Notes = append(exposureNotes(s.Yard.Plumbing), drawingNotes(s.Yard.Plumbing)...)
			d.Next = "lineup, with --from and --to, says which valves to open."
		},
	}, nil
}

// mostDrawn are the ways on one side of a pump that are drawn.
const mostDrawn = 30

// pumpDrawing draws the ways to a pump and from it beside each other.
func pumpDrawing(s lineup.Sides) []string {
	left, into := suctionRows(s.Suction)
	right, outOf := dischargeRows(s.Discharge)
	label := "(" + strings.TrimSpace("pump "+s.Pump.Name) + ")"
	rows, width := max(len(left), len(right), 1), 0
	for _, text := range left {
		width = max(width, len(text))
	}
	middle := (rows - 1) / 2
	var drawn []string
	for i := range rows {
		l, r := rowOf(left, i, rows), rowOf(right, i, rows)
		joint := map[bool]string{true: "--+", false: "   "}[l != ""]
		other := map[bool]string{true: "+--", false: ""}[r != ""]
		between := strings.Repeat(" ", len(label)+4)
		if i == middle {
			between = "--" + label + "--"
		}
		drawn = append(drawn, strings.TrimRight(fmt.Sprintf("%*s%s%s%s%s", width, l, joint, between, other, r), " "))
	}
	if into != "" || outOf != "" {
		drawn = append(drawn, "")
	}
	if into != "" {
		drawn = append(drawn, "All of the suction passes "+into+".")
	}
	if outOf != "" {
		drawn = append(drawn, "All of the discharge passes "+outOf+".")
	}
	return drawn
}

// rowOf centers a side's rows among all rows.
func rowOf(side []string, i, rows int) string {
	if i -= (rows - len(side)) / 2; i >= 0 && i < len(side) {
		return side[i]
	}
	return ""
}

// suctionRows draw the ways to a pump without what they all end in, which is named.
func suctionRows(ways []lineup.Way) (rows []string, shared string) {
	same := sharedHops(ways, func(w lineup.Way, i int) lineup.Hop { return w.Path[len(w.Path)-1-i] })
	for i, w := range ways {
		if i == mostDrawn {
			rows = append(rows, "and more")
			break
		}
		text := w.From
		for k, h := range w.Path[:len(w.Path)-same] {
			text += "--" + linkMark(h.Link)
			if k < len(w.Path)-same-1 {
				text += "--" + h.To
			}
		}
		rows = append(rows, text)
	}
	if len(ways) == 0 {
		return nil, ""
	}
	last := ways[0].Path
	return rows, linkNames(last[len(last)-same:])
}

// dischargeRows draw the ways from a pump without what they all begin with, which is named.
func dischargeRows(ways []lineup.Way) (rows []string, shared string) {
	same := sharedHops(ways, func(w lineup.Way, i int) lineup.Hop { return w.Path[i] })
	for i, w := range ways {
		if i == mostDrawn {
			rows = append(rows, "and more")
			break
		}
		text := ""
		for _, h := range w.Path[same:] {
			text += linkMark(h.Link) + "--" + h.To + "--"
		}
		rows = append(rows, strings.TrimSuffix(text, "--"))
	}
	if len(ways) == 0 {
		return nil, ""
	}
	return rows, linkNames(ways[0].Path[:same])
}

// sharedHops is how many hops all ways have alike, and one is left for each.
func sharedHops(ways []lineup.Way, hop func(lineup.Way, int) lineup.Hop) int {
	for same := 0; ; same++ {
		for _, w := range ways {
			if same >= len(w.Path)-1 || hop(w, same).Link.Name != hop(ways[0], same).Link.Name {
				return same
			}
		}
		if len(ways) == 0 {
			return 0
		}
	}
}

func linkNames(hops []lineup.Hop) string {
	var names []string
	for _, h := range hops {
		names = append(names, linkMark(h.Link))
	}
	return strings.Join(names, ", ")
}

// linkMark is a link in a diagram: [valve], (line), with > behind what a check valve lets through.
func linkMark(l yard.Link) string {
	name := l.Name
	if l.OneWay {
		name += ">"
	}
	if l.Valve {
		return "[" + name + "]"
	}
	return "(" + name + ")"
}

// besideDrawing draws what is on no way of a pump.
func besideDrawing(links []yard.Link) []string {
	rows := []string{"Besides the pump:"}
	for _, l := range links {
		rows = append(rows, "  "+l.A+"--"+linkMark(l)+"--"+l.B)
	}
	return rows
}

// linkTable lists the lines and valves, for programs.
func linkTable(p yard.Plumbing) report.Table {
	t := report.Table{Key: "links", Title: "Lines and valves", Columns: []report.Column{
		{Key: "name", Label: "Name"}, {Key: "kind", Label: "Kind"}, {Key: "from", Label: "From"}, {Key: "to", Label: "To"}, {Key: "protection", Label: "Protection"},
	}}
	for _, l := range p.Links {
		kind, protection := "line", ""
		switch {
		case l.Turns != "":
			kind = "three-way valve"
		case l.OneWay:
			kind = "check valve"
		case l.Valve:
			kind = "valve"
		}
		switch {
		case l.AirGap:
			protection = "air gap"
		case l.Protected:
			protection = "backflow preventer"
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Name), report.Word(kind), report.Word(l.A), report.Word(l.B), report.Word(protection)})
	}
	return t
}

// drawingNotes say what the marks mean that are in the drawing.
func drawingNotes(p yard.Plumbing) []string {
	var protected []string
	for _, l := range p.Links {
		if l.Protected {
			protected = append(protected, l.Name+map[bool]string{true: " (air gap)", false: " (backflow preventer)"}[l.AirGap])
		}
	}
	var notes []string
	if len(protected) > 0 {
		notes = append(notes, "Brine is kept off the fresh water at "+strings.Join(protected, ", ")+".")
	}
	if slices.ContainsFunc(p.Links, func(l yard.Link) bool { return l.OneWay }) {
		notes = append(notes, "A > marks a check valve, which lets liquid through from its first place to its second.")
	}
	return notes
}

// exposureNotes name the links by which brine can come to the fresh water.
func exposureNotes(p yard.Plumbing) []string {
	var notes []string
	for _, e := range lineup.Exposures(p) {
		switch e.Why {
		case lineup.ClosedGap:
			notes = append(notes, fmt.Sprintf("%s has an air gap in a closed line to %s: there can be none; it takes a backflow preventer, or water that falls into an open tank.", e.Link, e.To))
		case lineup.CheckAlone:
			notes = append(notes, fmt.Sprintf("%s joins the fresh water to %s behind a check valve alone, which is no backflow preventer.", e.Link, e.To))
		default:
			notes = append(notes, fmt.Sprintf("%s joins the fresh water to %s with neither air gap nor backflow preventer.", e.Link, e.To))
		}
	}
	return notes
}
