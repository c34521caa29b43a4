package cli

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Three words are answered as their flags are, and the line that ends the answer asks the same
// again.
func TestSpokenIsTheSame(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		command := rapid.SampledFrom([]string{"check", "correct"}).Draw(r, "command")
		tank := rapid.SampledFrom([]string{"mixer", "tote", "MIXER"}).Draw(r, "tank")
		reading := fmt.Sprintf("%.1f", rapid.Float64Range(21, 26).Draw(r, "reading"))
		temp := rapid.IntRange(30, 70).Draw(r, "temp")
		more := rapid.SampledFrom([]string{"", " --volume 200gal", " --to 23.5%", " --moisture 2%"}).Draw(r, "more") + " --yard YARD"
		spoken := answer(t, demoFields(fmt.Sprintf("%s %s %s %d", command, tank, reading, temp)+more)...)
		flags := answer(t, demoFields(fmt.Sprintf("%s --tank %s --hydrometer %s --temp %d", command, tank, reading, temp)+more)...)
		said, line, found := strings.Cut(spoken, "Asked: brineyard ")
		require.True(r, found, spoken)
		require.Equal(r, flags, said)
		require.Equal(r, flags, answer(t, strings.Fields(line)...))
	})
}
