package move

import (
	"strings"

	"brineyard/internal/cli/show"
	"brineyard/internal/lineup"
	"brineyard/internal/report"
)

// openFigures are the open valves, and what they join.
func openFigures(open, sources, outlets []string) []report.Figure {
	list := func(key, label string, names []string) report.Figure {
		if len(names) == 0 {
			return report.Figure{Key: key, Label: label, Value: report.Nothing("", "none")}
		}
		return report.Figure{Key: key, Label: label, Value: report.Word(strings.Join(names, ", "))}
	}
	return []report.Figure{list("open", "Open", open), list("source", "Draws from", sources), list("outlet", "Pumps to", outlets)}
}

// settingFigures are what a setting joins, and whether to pump; the first fault if not. Contents that do not go
// together, a full tank or an empty one count where the valves are right.
func settingFigures(s lineup.Setting, contents string) []report.Figure {
	decision := decisionOf(contents)
	if len(s.Findings) > 0 {
		decision = report.Word(string(s.Findings[0].Fault))
	}
	return append(openFigures(s.Open, s.Sources, s.Outlets), show.Quiet(report.Figure{Key: "decision", Label: "Decision", Value: decision}))
}

// decisionOf is for what stands at the ends of a move: what is wrong with it, or nothing.
func decisionOf(contents string) report.Value {
	if contents != "" {
		return report.Word("contents")
	}
	return report.Word("pump")
}

func settingWords(d *report.Document, s lineup.Setting) {
	d.Title, d.Cautions = "What this setting does", []string{show.CautionPump, show.CautionLocal}
	d.Verdict, d.Notes = show.SettingWords(s)
	if len(s.Findings) == 0 {
		return
	}
	t := report.Table{Key: "findings", Title: "What is wrong", Columns: []report.Column{{Key: "fault", Label: "Fault"}, {Key: "places", Label: "Places"}}}
	for _, f := range s.Findings {
		t.Rows = append(t.Rows, []report.Value{report.Word(string(f.Fault)), report.Word(strings.Join(f.Places, ", "))})
	}
	d.Tables = []report.Table{t}
}
