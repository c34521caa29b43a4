package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"brineyard/internal/cli/run"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/cobra"
	"github.com/stretchr/testify/require"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"brineyard": func() { os.Exit(Run(scripted(run.System()), os.Args[1:])) },
	})
}

// scriptClock is what the clock shows in a screen script that sets it.
const scriptClock = "SCRIPT_CLOCK"

// scripted gives a script's own clock to what it runs.
func scripted(env run.Env) run.Env {
	shows := os.Getenv(scriptClock)
	if shows == "" {
		return env
	}
	now := env.Now
	env.Now = func() time.Time {
		at, err := time.ParseInLocation("2006-01-02 15:04", shows, now().Location())
		if err != nil {
			panic(err)
		}
		return at
	}
	return env
}

// demoYard is the yard file of the demo and of the screen scripts.
var demoYard = filepath.Join("..", "..", "testdata", "yard", "thistlewick.toml")

// demoStorm is a storm on it.
var demoStorm = filepath.Join("..", "..", "testdata", "storm", "first-flake.toml")

// smallYard is that of the worked example.
var smallYard = filepath.Join("..", "..", "testdata", "storm", "small-yard.toml")

// demoSeason is a winter's journal.
var demoSeason = filepath.Join("..", "..", "testdata", "season", "thistlewick.csv")

// TestScripts runs the screen scripts of testdata/script. With UPDATE_SCRIPTS=1 it
// writes what the program says now into them, to be read before it is kept.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "script"),
		RequireExplicitExec: true,
		UpdateScripts:       os.Getenv("UPDATE_SCRIPTS") != "",
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"rounded": rounded},
		Setup: func(e *testscript.Env) error {
			for path, name := range map[string]string{
				demoYard: "thistlewick.toml", demoStorm: "first-flake.toml", smallYard: "small-yard.toml", demoSeason: "winter.csv",
			} {
				text, err := os.ReadFile(path)
				if err != nil {
					return err
				}
				if err := os.WriteFile(filepath.Join(e.WorkDir, name), text, 0o644); err != nil {
					return err
				}
			}
			e.Setenv(scriptClock, "2026-04-20 05:00")
			return nil
		},
	})
}

// longNumber is one in full precision, of which the last digits may differ between
// processors.
var longNumber = regexp.MustCompile(`-?\d+\.\d{6,}(e[-+]\d+)?`)

// rounded is a command of the screen scripts: it copies a file with every long number
// rounded to six digits.
func rounded(ts *testscript.TestScript, _ bool, args []string) {
	text := longNumber.ReplaceAllStringFunc(ts.ReadFile(args[0]), func(number string) string {
		x, err := strconv.ParseFloat(number, 64)
		ts.Check(err)
		return strconv.FormatFloat(x, 'g', 6, 64)
	})
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(text), 0o644))
}

// newRoot builds the whole command tree.
func newRoot(env *run.Env) *cobra.Command { return rootWith(env, &run.Globals{}, groups(), "") }

// invoke runs a command line in this process, in the package's folder, where
// there is no yard file.
func invoke(t testing.TB, args ...string) (status int, out, errs string) {
	t.Helper()
	return invokeOn(t, time.Time{}, args...)
}

// invokeOn is invoke with a clock that stands still; that of the machine where it is zero.
func invokeOn(t testing.TB, now time.Time, args ...string) (status int, out, errs string) {
	t.Helper()
	var stdout, stderr bytes.Buffer
	env := run.System()
	if !now.IsZero() {
		env.Now = func() time.Time { return now }
	}
	env.Out, env.Err = &stdout, &stderr
	env.Getenv = func(string) string { return "" }
	status = Run(env, args)
	return status, stdout.String(), stderr.String()
}

// answer runs a command line that is to succeed.
func answer(t testing.TB, args ...string) string {
	t.Helper()
	status, out, errs := invoke(t, args...)
	require.Zero(t, status, "%v: %s", args, errs)
	require.Empty(t, errs, "%v", args)
	return out
}
