package cli

import (
	"testing"

	"brineyard/internal/cli/run"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// Every flag that may be meant is a flag of some command.
func TestMeantFlagsExist(t *testing.T) {
	there := map[string]bool{}
	env := run.Env{}
	everyCommand(newRoot(&env), func(c *cobra.Command) {
		for _, set := range []*pflag.FlagSet{c.Flags(), c.PersistentFlags()} {
			set.VisitAll(func(f *pflag.Flag) { there[f.Name] = true })
		}
	})
	for word, flags := range meant {
		for _, flag := range flags {
			require.True(t, there[flag], "%s: --%s", word, flag)
		}
	}
}
