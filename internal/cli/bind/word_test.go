package bind

import (
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

// A count is what it was bound with until a number is typed, and again once that is taken
// back.
func TestCountKeepsItsDefault(t *testing.T) {
	flags := pflag.NewFlagSet("", pflag.ContinueOnError)
	five, none := 5, 0
	Count(New(flags), &five, "five", "", "count")
	Count(New(flags), &none, "none", "", "count")
	require.Equal(t, "5", flags.Lookup("five").DefValue)
	require.Empty(t, flags.Lookup("none").DefValue)
	for name, to := range map[string]*int{"five": &five, "none": &none} {
		before := *to
		require.NoError(t, flags.Set(name, "7"))
		require.Equal(t, 7, *to)
		flags.Lookup(name).Value.(Resettable).Reset()
		require.Equal(t, before, *to)
	}
}
