package cli

import "brineyard/internal/cli/run"

func isTerminal(stream any) bool { return run.IsTerminal(stream) }
