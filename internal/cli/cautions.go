package cli

import "brineyard/internal/balance"

// The cautions of the trade, each shown where its work comes up. Local codes and
// licensed practice come first in all of them.
const (
	cautionPump = "Open the suction and the outlet before the pump starts; never run it dry or against a closed valve. " +
		"Lock it out before opening it."
	cautionBackflow = "Where fresh water meets brine, fill through an air gap or a backflow preventer, as local code requires."
	cautionEntry    = "Nobody enters a tank for salt or sludge outside a confined-space permit."
	cautionDrain    = "Brine, salt and sludge stay out of drains and soil; follow local rules."
	cautionChloride = "Calcium and magnesium chloride heat up in water and burn skin and eyes: gloves, goggles, wash water at hand."
	cautionLocal    = "Local codes and licensed practice come before anything printed here."
)

// liquidCautions go with pumping a mix.
func liquidCautions(mix balance.Liquid) []string {
	cautions := []string{cautionPump, cautionDrain, cautionLocal}
	if c := mix.Composition; c.CaCl2 > 0 || c.MgCl2 > 0 {
		return append([]string{cautionChloride}, cautions...)
	}
	return cautions
}
