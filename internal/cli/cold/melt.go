package cold

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
)

// meltVerdict says how much ice a volume melts.
func meltVerdict(v show.View, r brine.FreezeRequest, m brine.Melt) string {
	if m.Dilution == 0 {
		return v.Say("On pavement at %v it melts nothing: it would freeze there itself.", r.Pavement)
	}
	return v.Say("On pavement at %v it melts %v of ice before it refreezes there, diluted to %v.", r.Pavement, m.PerVolume, m.Diluted)
}

func meltFigures(v show.View, r brine.FreezeRequest, m brine.Melt) []report.Figure {
	return []report.Figure{
		v.Figure("ice_melted_per_volume", v.Say("Ice melted at %v", r.Pavement), m.PerVolume),
		v.Figure("melt_dilution", "Melt water taken up, by weight of liquid", m.Dilution),
		v.Figure("diluted_strength", "Refreezes when diluted to", m.Diluted),
	}
}
