package show

import (
	"fmt"
	"slices"
	"strings"

	"brineyard/internal/lineup"
	"brineyard/internal/yard"
)

// Plumbing draws a plumbing as lines of text, each pump in the middle, and then what lies on no way of a pump.
func Plumbing(p yard.Plumbing) []string {
	pumps, besides := lineup.Draw(p)
	var drawn []string
	for i, pump := range pumps {
		if i > 0 {
			drawn = append(drawn, "")
		}
		drawn = append(drawn, pumpDrawing(pump)...)
	}
	if len(besides) > 0 {
		drawn = append(append(drawn, ""), besideDrawing(besides)...)
	}
	return drawn
}

// mostDrawn are the ways on one side of a pump that are drawn.
const mostDrawn = 30

// pumpDrawing draws the ways to a pump and from it beside each other.
func pumpDrawing(s lineup.Sides) []string {
	left, into := sideRows(s.Suction, true, suctionRow)
	right, outOf := sideRows(s.Discharge, false, dischargeRow)
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

// sideRows draw the ways on one side of a pump without what they share next to it, which is named.
func sideRows(ways []lineup.Way, suction bool, draw func(lineup.Way, []lineup.Hop) string) (rows []string, shared string) {
	if len(ways) == 0 {
		return nil, ""
	}
	same := 0
	for alike(ways, suction, same) {
		same++
	}
	for i, w := range ways {
		if i == mostDrawn {
			rows = append(rows, "and more")
			break
		}
		own, _ := cut(w.Path, suction, same)
		rows = append(rows, draw(w, own))
	}
	_, last := cut(ways[0].Path, suction, same)
	return rows, linkNames(last)
}

// alike reports whether all ways have the same link so many hops from the pump, and one more of their own.
func alike(ways []lineup.Way, suction bool, hops int) bool {
	at := func(path []lineup.Hop) string {
		if suction {
			return path[len(path)-1-hops].Link.Name
		}
		return path[hops].Link.Name
	}
	for _, w := range ways {
		if hops >= len(w.Path)-1 || at(w.Path) != at(ways[0].Path) {
			return false
		}
	}
	return true
}

// cut takes a way apart: its own hops, and so many next to the pump.
func cut(path []lineup.Hop, suction bool, hops int) (own, shared []lineup.Hop) {
	if at := len(path) - hops; suction {
		return path[:at], path[at:]
	}
	return path[hops:], path[:hops]
}

// suctionRow draws a way from its source on.
func suctionRow(w lineup.Way, own []lineup.Hop) string {
	text := w.From
	for i, h := range own {
		text += "--" + linkMark(h.Link)
		if i < len(own)-1 {
			text += "--" + h.To
		}
	}
	return text
}

// dischargeRow draws a way to its end.
func dischargeRow(_ lineup.Way, own []lineup.Hop) string {
	text := ""
	for _, h := range own {
		text += linkMark(h.Link) + "--" + h.To + "--"
	}
	return strings.TrimSuffix(text, "--")
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

// PlumbingNotes say what the marks mean that are in the drawing.
func PlumbingNotes(p yard.Plumbing) []string {
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

// ExposureNotes name the links by which brine can come to the fresh water.
func ExposureNotes(p yard.Plumbing) []string {
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
