package cli

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// badValues are no value of any flag that takes a quantity.
var badValues = map[string]string{
	"empty":           "",
	"blank":           " ",
	"words":           "cold",
	"not a number":    "NaN",
	"infinity":        "+Inf",
	"overflow":        "1e999gal",
	"huge":            "1e308",
	"hex":             "0x10",
	"underscore":      "1_000",
	"broken groups":   "1,20,00gal",
	"two commas":      "23,3,3%",
	"two points":      "1.2.3",
	"two signs":       "--5",
	"unknown unit":    "5parsecs",
	"newline":         "5\n6",
	"escape sequence": "5\x1b[31mF",
	"NUL":             "5\x00",
	"not UTF-8":       "5\xff%",
	"bidi":            "5\u202e%",
	"long":            strings.Repeat("9", 5000) + "x",
}

// quantityFlags are the flags that take a quantity, by command.
var quantityFlags = map[string][]string{
	"reading":              {"hydrometer", "sg", "salometer", "baume", "weigh", "temp", "cal"},
	"check":                {"hydrometer", "temp", "volume", "capacity", "to", "low", "high", "stock", "purity", "moisture"},
	"correct":              {"strength", "temp", "volume", "capacity", "to", "stock", "purity", "moisture", "cal"},
	"batch":                {"volume", "capacity", "to", "heel-volume", "heel-strength", "heel-temp", "water-temp", "purity", "moisture", "bed", "supply", "cal"},
	"freeze":               {"nacl", "kcl", "cacl2", "mgcl2", "at", "pavement", "volume", "temp"},
	"blend":                {"volume", "temp", "cal", "ice-at", "keep-clear"},
	"store":                {"to", "with", "capacity", "temp", "cal", "batches"},
	"ready":                {"temp", "cal", "to", "low", "high"},
	"storm":                {"now", "start", "low", "temp", "reserve", "rate"},
	"journal add batch":    {"volume", "strength", "salt", "water"},
	"journal add reading":  {"hydrometer", "sg", "salometer", "baume", "weigh", "temp", "cal"},
	"journal add delivery": {"salt", "volume", "strength", "kcl", "cacl2", "mgcl2", "cost", "purity", "moisture"},
	"journal add rinse":    {"water"},
	"journal add work":     {"hours", "distance", "cost"},
	"truck":                {"tank", "empty", "gross", "temp", "flow", "volume", "rate", "area-rate", "speed", "width", "lanes", "nozzles", "catch", "over"},
}

// requireRefused asserts the form of every refusal: status 2, nothing on
// standard output, one line on standard error that holds all of the pieces.
func requireRefused(t *testing.T, args []string, pieces ...string) {
	t.Helper()
	status, out, errs := invoke(t, args...)
	require.Equal(t, statusInput, status, "%q: %s", args, errs)
	require.Empty(t, out, "%q", args)
	require.True(t, strings.HasSuffix(errs, "\n"), "%q", args)
	line := strings.TrimSuffix(errs, "\n")
	require.NotContains(t, line, "\n", "%q", args)
	require.Less(t, len(line), 400, "%q", args)
	require.NotRegexp(t, verb, line, "%q", args)
	for _, r := range line {
		require.True(t, r >= ' ' && r != 0x7f && r != 0x202e, "%q: control character in %q", args, line)
	}
	for _, p := range pieces {
		require.Contains(t, line, p, "%q", args)
	}
}

func TestBadValues(t *testing.T) {
	for command, flags := range quantityFlags {
		for _, name := range flags {
			for kind, value := range badValues {
				t.Run(command+"/"+name+"/"+kind, func(t *testing.T) {
					requireRefused(t, append(strings.Fields(command), "--"+name, value), "brineyard "+command, "--"+name)
				})
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range refusals {
		t.Run(c.line, func(t *testing.T) {
			requireRefused(t, strings.Fields(strings.ReplaceAll(c.line, "YARD", demoYard)), c.pieces...)
		})
	}
}

// A broken yard file is named with line and column, whichever command reads it.
func TestBrokenYardFiles(t *testing.T) {
	for _, c := range []struct{ text, place, piece string }{
		{"[target\n", ":1:8:", "table name"},
		{"name = \n", ":1:8:", ""},
		{"units = \"imperial\"\n", ":1:1:", "us, metric"},
		{"[target]\nstrength = \"130%\"\n", ":2:1:", "0% to 100%"},
		{"[target]\nstrength = nan\n", ":2:1:", "strength"},
		{"\n[target]\nstrenght = \"23%\"\n", ":3:1:", "unknown key"},
		{"[supply]\nflow = \"30furlongs\"\n", ":2:1:", "gal/min"},
		{"[[mixing_tank]]\nname = 7\ncapacity = 9", ":2:1:", "quotes"},
		{"[[mixing_tank]]\nname = \"a\"\n", ":1:3:", "capacity is missing"},
		{"[target]\nlow = \"24%\"\nhigh = \"23%\"\n", ":2:1:", "above"},
		{"name = \"a\"\nname = \"b\"\n", ":2:", "already"},
	} {
		path := filepath.Join(t.TempDir(), "yard.toml")
		require.NoError(t, os.WriteFile(path, []byte(c.text), 0o644))
		for _, line := range []string{
			"reading --hydrometer 20% --temp 41F", "check --volume 5gal --hydrometer 20% --temp 41F",
			"correct --volume 5gal --strength 20%", "batch --volume 5gal", "freeze --nacl 20%",
		} {
			requireRefused(t, append(strings.Fields(line), "--yard", path), "yard.toml"+c.place, c.piece)
		}
	}
}
