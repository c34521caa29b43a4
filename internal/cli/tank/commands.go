// Package tank holds the questions asked at the mixing tank.
package tank

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command {
	return []run.Command{
		readingCommand, checkCommand, correctCommand, batchCommand, readyCommand, levelCommand, glassCommand,
	}
}
