package cli

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A plan fits a page of 66 lines (six to the inch, 11 inches), and markdown carries the
// tables that text leaves out for that.
func TestStormFitsAPage(t *testing.T) {
	storm := "storm ../../testdata/storm/first-flake.toml --yard " + demoYard
	for _, units := range []string{"us", "metric"} {
		text := answerAll(t, strings.Fields(storm+" --units "+units)...)
		require.LessOrEqual(t, strings.Count(text, "\n"), 66, units)
		require.NotContains(t, text, "At the pump")
	}
	markdown := answerAll(t, strings.Fields(storm+" --format markdown")...)
	for _, heading := range []string{"## Jobs", "## Loads", "At the pump", "## Liquids that are not made here"} {
		require.Contains(t, markdown, heading)
	}
}
