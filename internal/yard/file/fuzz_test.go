package file

import (
	"math"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// seeds are files that fail in different ways, or do not.
var seeds = []string{
	good, "", "\ufeff" + good, strings.ReplaceAll(good, "\n", "\r\n"),
	"name = ", "name = 3", "colour = 1", "[target", "\xff", "x\x00 = 1", "units = \"\"",
	"[target]\nlow = \"24\"\nhigh = \"20\"", "[target]\nlow = nan", "[target]\r\nlow = \"240%\"\r\n",
	"name = \"\"\"\ncolour = 1\n\"\"\"\ncolour = 2", "'na me' = 3", "a.b.c = 1", "name.x = 1",
	"mixing_tank = [{name = \"a\", capacity = \"10gal\"}, {name = \"b\"}]", "mixing_tank = [1]",
	"[[mixing_tank]]\nname = \"a\"\n[mixing_tank.capacity]\nx = 1", "[[mixing_tank]]\nname = \"a\"\ncapacity.x = 1",
	"name = \"水水", "[[Mixing_Tank]]\nNAME = \"a\"\nCapacity = 1e3\nheel = 0x10",
}

// Whatever the file holds, there is a yard that makes sense, or an error of the
// file with a place in it.
func FuzzParse(f *testing.F) {
	for _, text := range seeds {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		y, err := Parse("north.toml", text)
		if err != nil {
			requirePlace(t, string(text), err)
			return
		}
		require.Equal(t, "north.toml", y.Path)
		requireSense(t, y)
	})
}

// requirePlace fails unless the error names the file and places that it has.
func requirePlace(t *testing.T, text string, err error) {
	t.Helper()
	var faults Faults
	require.ErrorAs(t, err, &faults)
	lines := strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n")
	for _, e := range faults {
		require.Equal(t, "north.toml", e.Path)
		require.NotEmpty(t, e.Message)
		for _, r := range e.Message {
			require.True(t, unicode.IsGraphic(r), "%q", e.Message)
		}
		if e.Line == 0 {
			require.Zero(t, e.Column)
			continue
		}
		require.GreaterOrEqual(t, e.Line, 1)
		require.LessOrEqual(t, e.Line, len(lines))
		require.GreaterOrEqual(t, e.Column, 1)
		require.LessOrEqual(t, e.Column, utf8.RuneCountInString(lines[e.Line-1])+1)
	}
}

// requireSense fails for a yard that check should have refused.
func requireSense(t *testing.T, y *yard.Yard) {
	t.Helper()
	if low, high := y.Target.Low, y.Target.High; low != nil && high != nil {
		require.LessOrEqual(t, *low, *high)
	}
	seen := map[string]bool{}
	for _, tank := range y.Tanks {
		require.NotEmpty(t, tank.Name)
		require.False(t, seen[tank.Name], "%q twice", tank.Name)
		seen[tank.Name] = true
		for _, v := range []quantity.Volume{tank.Capacity, tank.Usual(), tank.PumpOff} {
			require.False(t, math.IsNaN(float64(v)) || v < 0 || v > tank.Capacity, "%+v", tank)
		}
		require.GreaterOrEqual(t, tank.Bed, quantity.Mass(0))
	}
	for _, m := range y.MixingTanks() {
		require.Positive(t, m.Capacity)
		if m.WorkingVolume > 0 {
			require.LessOrEqual(t, m.PumpOff, m.WorkingVolume)
		}
	}
}

// FuzzStorm: whatever a storm file holds, there is a storm that makes sense for the yard,
// or faults with their places.
func FuzzStorm(f *testing.F) {
	y, err := Parse("yard.toml", []byte(good))
	if err != nil {
		f.Fatal(err)
	}
	for _, text := range []string{
		"", "now = \"12:00\"\nstart = \"20:00\"\nlow = \"19F\"", "pavement = [[\"20:00\", \"27F\"], [\"4:00\"]]", "low = -40\nreserve = \"1kL\"",
		"[[route]]\nname = \"x\"\npasses = 3\nrate = \"40gal/mi\"", "[[route]]\nskip = true", "[route]", "route = [1]", "now = 12:00:00", "\xff", "low = nan",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := ParseStorm("north.toml", text, y)
		if err != nil {
			requirePlace(t, string(text), err)
			return
		}
		for _, at := range []*quantity.Duration{s.Now, s.Start} {
			require.True(t, at == nil || *at >= 0 && *at < 24*60*quantity.Minute)
		}
		coldest, warmest := yard.PavementLimits()
		require.True(t, s.Low == nil || *s.Low >= coldest && *s.Low <= warmest)
		require.True(t, s.Reserve == nil || *s.Reserve >= 0)
		for _, r := range s.Routes {
			require.GreaterOrEqual(t, r.Passes, 0)
		}
	})
}
