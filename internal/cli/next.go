package cli

import (
	"brineyard/internal/yard"
)

// What often follows an answer, in a line that names the command. With the yard file in
// use the names are the yard's own.

// afterCheck leads on to the pump, or back to the hydrometer.
func (s *setting) afterCheck(tank string, d yard.Decision) string {
	if d != yard.MayPump {
		return "correct shows the sum (--working); check again once it is mixed."
	}
	if to := s.storageFor(); to != "" && tank != "" {
		return "lineup --from " + tank + " --to " + to + " names the valves."
	}
	return "lineup names the valves, if the yard file has them."
}

// storageFor is a storage tank of salt brine that valves lead to; empty for none.
func (s *setting) storageFor() string {
	if s.yard == nil || len(s.yard.Plumbing.Links) == 0 {
		return ""
	}
	for _, t := range s.yard.Tanks {
		if !t.Mixing && t.HoldsBrine() {
			return t.Name
		}
	}
	return ""
}

const (
	nextAfterReading = "check says whether the tank may be pumped."
	nextAfterCorrect = "check, once it is mixed and the temperature has settled."
	nextAfterBatch   = "ready, with two or more timed readings, says when it reaches target."
	nextAfterReady   = "check, when it is time to look again."
	nextAfterBlend   = "freeze with its salts, or --liquid and its name, says what a cold night makes of it."
	nextAfterTruck   = "storm plans all loads of a storm."
	nextAfterStorm   = "batch --tank says what goes into each batch; --what-if compares plans."
)
