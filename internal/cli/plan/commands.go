// Package plan holds what is asked before a storm.
package plan

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command { return []run.Command{stormCommand} }
