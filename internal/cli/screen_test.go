package cli

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// screens are the usual case of each daily command on the demo yard.
var screens = []string{
	"check --tank mixer --hydrometer 24% --temp 40F", "check --tank mixer --hydrometer 23.3% --temp 40F", "check --tank mixer --hydrometer 25.6% --temp 44F",
	"check --tank mixer --hydrometer 23.65% --temp 40F", "check --volume 500gal --hydrometer 23.3% --temp 40F",
	"correct --tank mixer --hydrometer 25.6% --temp 44F", "correct --tank mixer --strength 21%", "batch --tank mixer", "batch --volume 1200gal",
	"blend 85:brine@23.3% 15:cal31", "blend 85:brine@23.3% 15:cal31 --keep-clear -5F --volume 1000gal", "blend 85:brine@23.3% 15:cal31 --ice-at -12F",
	"ready 5:10=12% 5:25=18.5% 5:35=20.9% --temp 45F", "reading --hydrometer 23.6% --temp 38F", "reading --hydrometer 23% --hydrometer 23.5% --temp 38F",
	"freeze --nacl 23.3%", "freeze --tank north", "freeze --tank north --at -8F", "freeze", "freeze --at 5F", "freeze --at -10F",
	"store north 400gal@25%", "store north --to 23.3% --with 25%",
	"truck --truck big-sprayer", "truck --truck big-sprayer --liquid brine@23.3% --temp 40F --volume 3335gal", "lineup --from mixer --to north",
	"lineup --open S1,D2", "level --tank north --depth 42in", "level --pile --height 9ft --width 30ft", "glass --water 0.2% --temp 58F",
}

// All that a foreman acts on is on a screen of 24 lines when the prompt is back, in either system of units, with nothing
// wider than 80 columns; and the answer fits a text message.
func TestScreensFit(t *testing.T) {
	for _, line := range screens {
		for _, units := range []string{"us", "metric"} {
			args := append(demoFields(line+" --yard YARD"), "--units", units)
			out := answer(t, args...)
			lines := strings.Split(strings.TrimRight(out, "\n"), "\n")
			require.LessOrEqual(t, len(lines), 22, "%s %s:\n%s", line, units, out)
			for _, l := range lines {
				require.LessOrEqual(t, utf8.RuneCountInString(l), 80, l)
			}
			brief := answer(t, append(args, "--brief")...)
			require.Equal(t, 1, strings.Count(brief, "\n"), brief)
			require.Less(t, utf8.RuneCountInString(strings.TrimSpace(brief)), 160, brief)
			require.True(t, strings.HasSuffix(brief, ".\n"), brief)
			all := answer(t, append(args, "--all")...)
			require.GreaterOrEqual(t, len(all), len(out)-len("More: --all\n")-1, line)
		}
	}
	storm := answer(t, demoFields("storm --yard YARD --low 19F --start 20:00")...)
	require.LessOrEqual(t, strings.Count(storm, "\n"), 60)
}
