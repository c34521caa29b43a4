package cli

import (
	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
)

// oneFile takes at most one file name.
func oneFile(c *cobra.Command, args []string) error { return run.OneFile(c, args) }

// ifKnown is nil for what is not known.
func ifKnown[Q comparable](q Q) *Q {
	var none Q
	if q == none {
		return nil
	}
	return &q
}
