package move

import (
	"slices"
	"strconv"
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

func rinseFigures(r lineup.Rinse) []report.Figure {
	return []report.Figure{{Key: "moves", Label: "Moves", Value: show.Count(len(r.Moves))}}
}

func rinseWords(d *report.Document, r lineup.Rinse) {
	d.Title, d.Verdict = "Rinsing the plumbing", rinseVerdict(r)
	d.Tables = []report.Table{show.Steps("steps", "In this order", rinseSteps(r))}
	d.Notes = []string{"Rinse water is weak brine: it goes to a storage tank or the next batch, and down a drain only where the law lets it."}
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

// rinseSteps empty the tanks that are rinsed from, rinse, and drain.
func rinseSteps(r lineup.Rinse) []string {
	var tanks, moves []string
	for _, m := range r.Moves {
		if m.From != yard.FreshWater && !slices.Contains(tanks, m.From) {
			tanks = append(tanks, m.From)
			moves = append(moves, rinseFill(m))
		}
		how := "pump"
		if !m.Pumped {
			how = "let run"
		}
		moves = append(moves, openAlone(m.Move)+"; "+how+" fresh water from "+m.From+" to "+m.To+" until it runs clear.")
	}
	if len(tanks) > 0 {
		moves = append([]string{"Bring the brine of " + strings.Join(tanks, ", ") + " to where it keeps, and take the salt bed out of a mixing tank."}, moves...)
	}
	return append(moves, "Pump off and locked out. Open the low points and drain every line, the pump and its filter.",
		"Leave the valves half open, so that what is left can move when it freezes.")
}

// rinseFill says how fresh water comes into a tank that is rinsed from.
func rinseFill(m lineup.RinseMove) string {
	if m.Fill == nil {
		return "Put fresh water into " + m.From + " by hose, with an air gap."
	}
	how := "let the supply run"
	if m.Fill.Pumped {
		how = "pump from the supply"
	}
	return openAlone(*m.Fill) + ", and " + how + " into " + m.From + "."
}
