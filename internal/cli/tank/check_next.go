package tank

import (
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// afterCheck leads on to the pump, or back to the hydrometer.
func afterCheck(y *yard.Yard, tank string, d yard.Decision) string {
	if d == yard.OnTheEdge {
		return "check again, with a finer reading or after stirring; glass checks the instrument."
	}
	if d != yard.MayPump {
		return "correct shows the sum (--working); check again once it is mixed."
	}
	if to := storageFor(y, tank); to != "" && tank != "" {
		return "lineup --from " + words.Argument(tank) + " --to " + words.Argument(to) + " names the valves."
	}
	return "lineup names the valves, if the yard file has them."
}

// storageFor is a storage tank of salt brine, another than the tank, that valves lead to; empty for none.
func storageFor(y *yard.Yard, tank string) string {
	if y == nil || len(y.Plumbing.Links) == 0 {
		return ""
	}
	for _, t := range y.StorageTanks() {
		if t.Name != tank && t.HoldsBrine() {
			return t.Name
		}
	}
	return ""
}
