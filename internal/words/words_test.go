package words

import (
	"strconv"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func TestQuoted(t *testing.T) {
	for text, want := range map[string]string{
		"":                        `""`,
		"north":                   `"north"`,
		`say "north"`:             `"say \"north\""`,
		"Tänk 2":                  `"Tänk 2"`,
		"a\nb\x1b[2J":             `"a\nb\x1b[2J"`,
		"5\u00a0gal":              `"5\u00a0gal"`,
		"a\u202eb":                `"a\u202eb"`,
		"a\xffb":                  `"a\xffb"`,
		strings.Repeat("ü", 40):   `"` + strings.Repeat("ü", 40) + `"`,
		strings.Repeat("ü", 41):   `"` + strings.Repeat("ü", 40) + `..."`,
		strings.Repeat("x", 9000): `"` + strings.Repeat("x", 40) + `..."`,
	} {
		require.Equal(t, want, Quoted(text))
	}
}

func TestOneLine(t *testing.T) {
	for text, want := range map[string]string{
		"":                       "",
		"plain words: 23.3 %":    "plain words: 23.3 %",
		" two\r\n lines\t here ": "two lines here",
		"a\x1b[2Jb":              `a\u001b[2Jb`,
		"a\x7f\u0085b\u0090":     `a\u007f b\u0090`,
		"a\u202eb\ufeff":         `a\u202eb\ufeff`,
		"a\u2028b":               "a b",
		"tag \U000e0041":         `tag \U000e0041`,
		"Tänk 2":                 "Tänk 2",
		"broken \xff byte":       "broken \ufffd byte",
	} {
		require.Equal(t, want, OneLine(text), "%q", text)
	}
}

func TestJoined(t *testing.T) {
	require.Equal(t, "none; there are none", Joined([]string{}, "none; there are none"))
	require.Equal(t, "a", Joined([]string{"a"}, "none"))
	require.Equal(t, "b, a, c", Joined([]string{"b", "a", "c"}, "none"))
}

// requireShown fails for what a terminal would take as a command, or show on two lines.
func requireShown(t require.TestingT, text string) {
	require.True(t, utf8.ValidString(text), "%q", text)
	for _, r := range text {
		require.True(t, unicode.IsGraphic(r), "%q in %q", r, text)
	}
}

// FuzzWords: whatever is typed is shown on one line, quoted so that it can be read back, and
// stands for a known word or for none.
func FuzzWords(f *testing.F) {
	for _, word := range []string{"", "mixr", "Mixer", "\x1b[2J", "a\nb", "\xff", "\u202e", strings.Repeat("ab", 40), "s", "ſ", "İx"} {
		f.Add(word, "mixer")
	}
	f.Fuzz(func(t *testing.T, word, other string) {
		quoted := Quoted(word)
		requireShown(t, quoted)
		require.LessOrEqual(t, utf8.RuneCountInString(quoted), 2+43*len(`\U00000000`))
		if back, err := strconv.Unquote(quoted); utf8.RuneCountInString(word) <= 40 {
			require.NoError(t, err)
			require.Equal(t, word, back)
		}
		line := OneLine(word)
		requireShown(t, line)
		require.Equal(t, line, OneLine(line))
		requireNearest(t, word, []string{other, "north", "south"})
	})
}
