// Package cold holds the questions about what the cold does to a liquid.
package cold

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command { return []run.Command{blendCommand, freezeCommand} }
