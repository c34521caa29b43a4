package move

import (
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func rinseFigures(v show.View, r lineup.Rinse) []report.Figure {
	water := quantity.Volume(0)
	for _, m := range r.Moves {
		water += m.Water
	}
	figures := []report.Figure{{Key: "moves", Label: "Moves", Value: show.Count(len(r.Moves))}}
	if water > 0 {
		return append(figures, v.Figure("rinse_water", "Fresh water, three times what the ways hold", water))
	}
	return append(figures, report.Figure{Key: "rinse_water", Label: "Fresh water", Value: report.Nothing("gal", "the yard file does not say what lines hold"), Quiet: true})
}

func rinseWords(v show.View, d *report.Document, p yard.Plumbing, r lineup.Rinse) {
	d.Title, d.Verdict = "Rinsing the plumbing", rinseVerdict(r)
	d.Tables = []report.Table{show.Steps("steps", "In this order", rinseSteps(v, p, r))}
	d.Notes = []string{
		"Rinse water is weak brine: it goes to a storage tank or the next batch, and down a drain only where the law lets it.",
		"Calcium or magnesium chloride goes out of a line before salt brine comes in: rinse between the two. A line that is rinsed holds weak brine, which freezes first: drain it, or record it (journal add rinse).",
	}
	d.Cautions = []string{show.CautionPump, show.CautionBackflow, show.CautionDrain, show.CautionEntry, show.CautionLocal}
}

func rinseVerdict(r lineup.Rinse) string {
	moves := strconv.Itoa(len(r.Moves)) + " moves pass"
	if len(r.Moves) == 1 {
		moves = "One move passes"
	}
	switch {
	case len(r.Moves) == 0:
		return "No move of this plumbing rinses anything: rinse every line by hose, then drain it all."
	case len(r.Dry) > 0:
		return moves + " fresh water through all but " + strings.Join(words.Natural(r.Dry), ", ") + "; rinse those by hose, then drain it all."
	}
	return moves + " fresh water through every line and the pump; then drain it all."
}

// rinseSteps rinse, and drain. Only a tank that is rinsed from has to be emptied.
func rinseSteps(v show.View, p yard.Plumbing, r lineup.Rinse) []string {
	var tanks []string
	steps := []string{"Pump off, and off again before every valve is turned."}
	for _, m := range r.Moves {
		if !yard.IsFresh(m.From) && !slices.Contains(tanks, m.From) {
			tanks = append(tanks, m.From)
			steps = append(steps, "Bring the liquid of "+m.From+" to where it keeps, and take out a salt bed. "+rinseFill(m))
		}
		steps = append(steps, rinseStep(v, p, m))
	}
	return append(steps, "Pump off and locked out. Open the low points and drain every line, the pump and its filter.",
		"Leave the valves half open, so that what is left can move when it freezes.")
}

// rinseStep is one move with its end: what has run through, or what is read.
func rinseStep(v show.View, p yard.Plumbing, m lineup.RinseMove) string {
	how := ": pump fresh water from " + m.From + " to " + m.To
	switch {
	case m.Still:
		how = "; pump off: let fresh water run through it from " + m.From + " to " + m.To
	case !m.Pumped:
		how = ": let fresh water run from " + m.From + " to " + m.To
	}
	text := openAlone(m.Move) + how
	if m.Water > 0 {
		text += v.Say(", %v (the way holds %v)", m.Water, m.Holds)
	}
	text += rinseEnd(p, m)
	if m.Pumped {
		return text + ". Pump off."
	}
	return text + ". Close " + closeFirst(m.Move) + "."
}

// rinseEnd is what shows that a move is over: at an open end a hydrometer reads it, into a tank only the meter or the
// clock tells.
func rinseEnd(p yard.Plumbing, m lineup.RinseMove) string {
	switch {
	case slices.Contains(p.Outlets, m.To):
		return ", until a hydrometer reads below 1% there"
	case m.Water > 0:
		return ", by the meter"
	}
	return ", for a minute by the clock"
}

// closeFirst is the valve next to the water.
func closeFirst(m lineup.Move) string {
	for _, h := range m.Path {
		if h.Link.Valve && h.Link.Turns == "" {
			return h.Link.Name
		}
	}
	return "the supply"
}

// rinseFill says how fresh water comes into a tank that is rinsed from.
func rinseFill(m lineup.RinseMove) string {
	if m.Fill == nil {
		return "Put fresh water into " + m.From + " by hose, with an air gap."
	}
	return openAlone(*m.Fill) + ", and let the supply run into " + m.From + "."
}
