// Package cli is the command line: the root, its errors and statuses, each, and completion.
package cli

import "brineyard/internal/cli/run"

// Env is what the program touches of the outside world.
type Env = run.Env

// System returns the real world.
func System() Env { return run.System() }

type globals = run.Globals
