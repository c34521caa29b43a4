package plan

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"brineyard/internal/cli/run"

	"github.com/stretchr/testify/require"
)

const (
	demoYard  = "../../../testdata/yard/thistlewick.toml"
	demoStorm = "../../../testdata/storm/first-flake.toml"
	smallYard = "../../../testdata/storm/small-yard.toml"
)

// ask runs storm with the words of a line.
func ask(line string) (string, error) {
	var out bytes.Buffer
	env := run.System()
	env.Out, env.Getenv = &out, func(string) string { return "" }
	g := &run.Globals{}
	cmd := stormCommand.Cobra(&env, g)
	g.Bind(cmd.Flags())
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	cmd.SetErr(io.Discard)
	cmd.SetArgs(strings.Fields(line))
	err := cmd.Execute()
	return out.String(), err
}

func answer(t *testing.T, line string) string {
	t.Helper()
	out, err := ask(line)
	require.NoError(t, err, line)
	return out
}

// A plan fits a page of 66 lines (six to the inch, 11 inches), and markdown carries the
// tables that text leaves out for that.
func TestStormFitsAPage(t *testing.T) {
	storm := demoStorm + " --yard " + demoYard
	for _, units := range []string{"us", "metric"} {
		text := answer(t, storm+" --units "+units)
		require.LessOrEqual(t, strings.Count(text, "\n"), 66, units)
		require.NotContains(t, text, "At the pump")
	}
	markdown := answer(t, storm+" --format markdown")
	for _, heading := range []string{"## Jobs", "## Loads", "At the pump", "## Liquids that are not made here"} {
		require.Contains(t, markdown, heading)
	}
}

// Three hundred routes fit a page too: those that are left out or late stand on it, the first of them.
func TestStormOfManyRoutesFitsAPage(t *testing.T) {
	text, err := os.ReadFile(demoYard)
	require.NoError(t, err)
	for i := range 300 {
		text = fmt.Appendf(text, "\n[[route]]\nname = \"road-%d\"\nlane_miles = \"%dmi\"\nrate = \"40gal/mi\"\npasses = 1\n", i, 3+i%7)
	}
	yard := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(yard, text, 0o600))
	page := answer(t, "--low 19F --now 12:00 --start 12:00 --down-by 20:00 --yard "+yard)
	require.LessOrEqual(t, strings.Count(page, "\n"), 66)
	require.Contains(t, page, "routes more")
	require.Contains(t, answer(t, "--low 19F --now 12:00 --format markdown --yard "+yard), "road-299")
}

// A flag stands above the storm file, which stands above the yard: each line is followed by
// one that says the same.
func TestStormPrecedence(t *testing.T) {
	yard := " --yard " + demoYard
	for _, same := range [][2]string{
		{demoStorm, demoStorm + " --now 12:00 --start 20:00 --low 19F --reserve 400gal"},
		{demoStorm + " --reserve 900gal", demoStorm + " --low 19F --reserve 900gal"},
		{"--low 19F --now 12:00", "--low 19F --now 12:00 --start 12:00 --reserve 0gal --temp 60F"},
		{"--low 19F --now 22:00 --start 6:00", "--low 19F --now 22:00 --start tomorrowT6:00"}, // of the next morning
	} {
		require.Equal(t, answer(t, same[0]+yard), answer(t, same[1]+yard), same[0])
	}
	file := answer(t, demoStorm+yard)
	for _, flag := range []string{" --reserve 3000gal", " --passes 1", " --rate 50gal/mi", " --now 9:00"} {
		require.NotEqual(t, file, answer(t, demoStorm+flag+yard), flag)
	}
}

// One plan is one answer, to the last digit: four liquids that the yard buys, of prices and
// strengths that are no round numbers, are summed in one order each time.
func TestStormIsTheSameEachTime(t *testing.T) {
	text, err := os.ReadFile(smallYard)
	require.NoError(t, err)
	for i, liquid := range []string{
		"cacl2 = \"31%\"\nprice = \"1.24/gal\"", "mgcl2 = \"27.3%\"\nprice = \"1.07/gal\"", "kcl = \"19.7%\"\nprice = \"0.83/gal\"", "nacl = \"22.9%\"\nprice = \"0.19/gal\"",
	} {
		text = fmt.Appendf(text, "\n[[liquid]]\nname = \"bought-%d\"\n%s\non_hand = \"%dgal\"\n", i, liquid, 900-200*i)
		text = fmt.Appendf(text, "\n[[route]]\nname = \"of-%d\"\nliquid = \"bought-%d\"\nlane_miles = \"7.3mi\"\nrate = \"31gal/mi\"\npasses = 1\npriority = 1\n", i, i)
	}
	yard := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(yard, text, 0o600))
	line := "--low 19F --format json --yard " + yard
	first := answer(t, line)
	for i := range 4 {
		require.Contains(t, first, fmt.Sprintf(`"value": "bought-%d"`, i))
	}
	for range 50 {
		require.Equal(t, first, answer(t, line))
	}
}
