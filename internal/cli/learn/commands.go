// Package learn holds what teaches: the sheets for the wall, and practice problems.
package learn

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command { return []run.Command{cardCommand, drillCommand} }
