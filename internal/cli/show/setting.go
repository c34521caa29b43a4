package show

import (
	"strings"

	"brineyard/internal/lineup"
)

// faultWords say what a fault of a setting of valves means; the places that it concerns
// come behind.
var faultWords = map[lineup.Fault]string{
	lineup.DryRun:      "Dry run: no suction is open, so the pump draws nothing.",
	lineup.DrawsAir:    "Draws air: an open end is on the suction side: ",
	lineup.TwoSources:  "The pump draws from more than one place: ",
	lineup.DeadHead:    "Dead head: no outlet is open, so the pump works against closed valves.",
	lineup.TwoOutlets:  "It runs out of more than one place at once: ",
	lineup.Ring:        "Ring: the pump's outlet leads back to its own suction.",
	lineup.Backflow:    "Backflow: fresh water is joined to brine with neither air gap nor backflow preventer: ",
	lineup.TanksJoined: "Tanks joined, so that brine runs from the higher to the lower: ",
	lineup.AlsoRuns:    "Also running by itself, past the pump: ",
	lineup.FillOpen:    "Fresh water is open into a tank that is pumped round, so that the batch ends weak and over-full: ",
	lineup.SupplyShort: "The pump runs short of water, as it moves more than comes from the ",
}

// SettingWords say what a setting of valves does: whether to pump, and in the notes the other
// findings.
func SettingWords(s lineup.Setting) (verdict string, notes []string) {
	if len(s.Findings) > 0 {
		first := findingText(s.Findings[0])
		for _, f := range s.Findings[1:] {
			notes = append(notes, findingText(f))
		}
		return "Do not pump: " + strings.ToLower(first[:1]) + first[1:], notes
	}
	return "Good to pump: " + strings.Join(s.Sources, ", ") + " to " + strings.Join(s.Outlets, ", ") + ".", notes
}

// findingText is a fault with its places.
func findingText(f lineup.Finding) string {
	return faultWords[f.Fault] + strings.Join(f.Places, ", ")
}
