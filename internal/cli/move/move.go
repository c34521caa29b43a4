package move

import (
	"slices"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

func moveFigures(m lineup.Move) []report.Figure {
	if !m.Pumped {
		return openFigures(m.Setting.Open, []string{yard.FreshWater}, []string{m.To})
	}
	figures := openFigures(m.Setting.Open, m.Setting.Sources, m.Setting.Outlets)
	show.Detail(figures[1:]...) // the verdict says them
	return figures
}

func moveWords(d *report.Document, p yard.Plumbing, m lineup.Move) {
	d.Title, d.Verdict = "Lineup", moveVerdict(m)
	d.Tables = []report.Table{show.Steps("steps", "In this order", moveSteps(p, m))}
	d.Drawings, d.Cautions = []string{diagram(m)}, moveCautions(m)
}

func moveVerdict(m lineup.Move) string {
	open := openAlone(m)
	if !m.Pumped {
		return open + ", pump off: the supply runs to " + m.To + " by its own pressure."
	}
	pump := "pump"
	if m.Pump.Name != "" {
		pump = "run " + m.Pump.Label()
	}
	return open + ", and " + pump + ": " + m.From + " to " + m.To + "."
}

// openAlone says which valves a move opens.
func openAlone(m lineup.Move) string {
	text := "Open " + strings.Join(m.Setting.Valves, ", ") + ", all else closed"
	if len(m.Setting.Valves) == 0 {
		text = "Close every valve"
	}
	for i, stand := range m.Setting.Turned {
		text += []string{", turn ", ", "}[min(i, 1)] + stand.Valve + " to " + stand.To
	}
	return text
}

// moveSteps put a move in order. Common practice, no source: pump off first, close
// before opening, suction before discharge, and stop the pump before closing.
func moveSteps(p yard.Plumbing, m lineup.Move) []string {
	steps := []string{"Pump off."}
	if closed := closedValves(p, m); len(closed) > 0 {
		steps = append(steps, "Close "+strings.Join(closed, ", ")+".")
	}
	for _, h := range m.Path {
		if h.Link.Valve && h.Link.Turns == "" {
			steps = append(steps, "Open "+h.Link.Name+" ("+h.Link.A+" - "+h.Link.B+").")
		}
	}
	for _, stand := range m.Setting.Turned {
		steps = append(steps, "Turn "+stand.Valve+" to "+stand.To+".")
	}
	if !m.Pumped {
		return append(steps,
			"Check the level in "+m.To+" and stay with it.",
			"Stop: close the valves in the same order.")
	}
	above := "liquid above the suction in " + m.From
	if m.From == yard.FreshWater {
		above = "the supply on"
	}
	start := "Start the pump"
	if m.Pump.Name != "" {
		start = "Start " + m.Pump.Label()
	}
	see, room := "that "+m.To+" fills", ", room in "+m.To
	if m.From == m.To {
		see, room = "that it comes back", ""
	}
	return append(steps,
		"Check: "+above+room+", nothing else open.",
		start+"; see that it draws and "+see+".",
		"Stop: pump off first, then close at once from "+m.To+" back to "+m.From+": through a pump that stands still the higher tank runs back.")
}

// closedValves are all that a move leaves closed; a three-way valve never shuts.
func closedValves(p yard.Plumbing, m lineup.Move) (closed []string) {
	for _, l := range p.Links {
		if l.Valve && l.Turns == "" && !slices.Contains(m.Setting.Valves, l.Name) {
			closed = append(closed, l.Name)
		}
	}
	return closed
}

// pathSteps follow the liquid from place to place.
func pathSteps(m lineup.Move) []report.Step {
	var steps []report.Step
	at := m.From
	for _, h := range m.Path {
		way := "line " + h.Link.Name
		if h.Link.Valve {
			way = "valve " + h.Link.Name + ", open"
		}
		steps = append(steps, report.Step{What: "From " + at + " to " + h.To, Formula: way})
		if at = h.To; at == m.Pump.In() {
			at = m.Pump.Label()
		}
	}
	return steps
}

// diagram draws the way of the liquid in a line.
func diagram(m lineup.Move) string {
	text := m.From
	for _, h := range m.Path {
		mark, to := " -- ", h.To
		if h.Link.Valve {
			mark = " --[" + h.Link.Name + "]-- "
		}
		if to == m.Pump.In() {
			to = strings.TrimSpace("(pump "+m.Pump.Name) + ")"
		}
		text += mark + to
	}
	return text
}

func moveCautions(m lineup.Move) []string {
	cautions := []string{show.CautionPump}
	if m.From == yard.FreshWater {
		cautions = append(cautions, show.CautionBackflow)
	}
	return append(cautions, show.CautionDrain, show.CautionLocal)
}
