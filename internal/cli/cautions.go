package cli

import (
	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
)

// The cautions of the trade, each shown where its work comes up. Local codes and
// licensed practice come first in all of them.
const (
	cautionPump = "Open the suction and the outlet before the pump starts; never run it dry or against a closed valve. " +
		"Lock it out before opening it."
	cautionBackflow = "Where fresh water meets brine, fill through an air gap or a backflow preventer, as local code requires."
	cautionEntry    = "Nobody enters a tank for salt or sludge outside a confined-space permit."
	cautionDrain    = "Brine, salt and sludge stay out of drains and soil; follow local rules."
	cautionLocal    = "Local codes and licensed practice come before anything printed here."
)

// liquidCautions go with pumping a mix.
func liquidCautions(mix balance.Liquid) []string { return show.LiquidCautions(mix) }
