// Package move holds the questions about moving brine: between tanks, onto trucks, through
// the valves.
package move

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command { return []run.Command{storeCommand, truckCommand, lineupCommand} }
