package words

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Counted by hand, a slip a letter.
func TestSlips(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"mixer", "mixer", 0}, {"mixr", "mixer", 1}, {"mixxer", "mixer", 1}, {"miter", "mixer", 1},
		{"mxier", "mixer", 1}, {"strenght", "strength", 1}, {"MIXR", "mixer", 1}, {"kitten", "sitting", 3}, {"ca", "abc", 3},
		{"abcd", "badc", 2}, {"tänk", "tank", 1}, {"big-spryer", "big-sprayer", 1}, {"north", "south", 2},
	} {
		require.Equal(t, c.want, slips(c.a, c.b, 9), "%s %s", c.a, c.b)
		require.Equal(t, c.want, slips(c.b, c.a, 9), "%s %s", c.b, c.a)
		require.Equal(t, c.want <= 1, OneSlip(c.a, c.b), "%s %s", c.a, c.b)
	}
}

func TestNearest(t *testing.T) {
	known := []string{"mixer", "north", "south", "heel-volume", "heel-strength", "low", "S1", "S2", "Tänk 2"}
	for word, want := range map[string]string{
		"mixr":         "mixer",
		"MIXER":        "mixer",
		"mi":           "mixer", // the only one that begins like that
		"m":            "",      // too short to tell
		"":             "",
		"mixer":        "", // known
		"nroth":        "north",
		"nouth":        "north", // as near to south: the first
		"heel":         "",      // two begin like that
		"heel-v":       "heel-volume",
		"heal-strengh": "heel-strength",
		"lo":           "low",
		"lwo":          "low",
		"lw":           "", // of two letters each may be another
		"S3":           "",
		"s1":           "S1",
		"tank 2":       "Tänk 2",
		"silo":         "",
		"mixing-tank":  "",
	} {
		near, ok := Nearest(word, known)
		require.Equal(t, want, near, word)
		require.Equal(t, want != "", ok, word)
	}
	_, ok := Nearest("mixr", nil)
	require.False(t, ok)
	near, _ := Nearest("mix", []string{"mixer", "mixer"})
	require.Equal(t, "mixer", near)
}

func TestAllowed(t *testing.T) {
	known := []string{"mixer", "north"}
	require.Equal(t, "did you mean mixer? allowed: mixer, north", Allowed("mixr", known))
	require.Equal(t, "allowed: mixer, north", Allowed("silo", known))
	require.Equal(t, "allowed: none; the file has none", Allowed("silo", nil))
}

// requireNearest fails for a suggestion that is not known, or that is made for a known word.
func requireNearest(t require.TestingT, word string, known []string) {
	near, ok := Nearest(word, known)
	require.Equal(t, ok, near != "" || slices.Contains(known, "") && ok)
	if ok {
		require.Contains(t, known, near)
		require.NotContains(t, known, word)
	}
}

// Whatever is typed, a suggestion is a known word, none is made for a known word, the case of
// letters does not matter, and one slip in a word of three letters or more is seen through.
func TestNearestProperties(t *testing.T) {
	word := rapid.StringMatching(`[a-z]{3,9}`)
	rapid.Check(t, func(t *rapid.T) {
		known := rapid.SliceOfN(word, 1, 6).Draw(t, "known")
		typed := rapid.StringMatching(`[a-zA-Z]{0,9}`).Draw(t, "typed")
		requireNearest(t, typed, known)
		requireNearest(t, known[0], known)

		near, ok := Nearest(strings.ToLower(typed)+"'", known)
		again, too := Nearest(strings.ToUpper(typed)+"'", known)
		require.Equal(t, near, again)
		require.Equal(t, ok, too)

		at := rapid.IntRange(0, len(known[0])).Draw(t, "at")
		slipped := known[0][:at] + "'" + known[0][at:]
		near, ok = Nearest(slipped, known)
		require.True(t, ok, slipped)
		require.LessOrEqual(t, slips(slipped, near, 9), 1)
	})
}
