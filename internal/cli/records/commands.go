// Package records holds the yard's records: its journal and its file.
package records

import "brineyard/internal/cli/run"

// Commands are those of this group.
func Commands() []run.Command { return []run.Command{journalCommand, yardCommand} }
