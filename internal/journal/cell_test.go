package journal

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestCells(t *testing.T) {
	for text, want := range map[string]string{
		"":                 "",
		"mixer":            "mixer",
		"=1+1":             "'=1+1",
		"+1":               "'+1",
		"-":                "'-",
		"@SUM(A1)":         "'@SUM(A1)",
		"＝1":               "'＝1",
		"\t=1":             `\t=1`,
		"\r":               `\r`,
		"'north":           "''north",
		"a=b-c's":          "a=b-c's",
		"C:\\salt":         `C:\\salt`,
		"two\nlines":       `two\nlines`,
		"\x00\x1b[31m":     `\u0000\u001b[31m`,
		"\u0085":           `\u0085`,
		"a\u202eb\ufeff":   `a\u202eb\ufeff`,
		"\u2028\u2029":     `\u2028\u2029`,
		"\U000e0041":       `\U000e0041`,
		"n\xe4chte":        `n\xe4chte`,
		"\ufffd":           "\ufffd", // the rune itself, not a broken byte
		"Tauw\u00e4sser 雪": "Tauwässer 雪",
	} {
		require.Equal(t, want, encodeText(text))
		back, err := decodeText(want)
		require.NoError(t, err)
		require.Equal(t, text, back)
	}
}

// Cells that this program does not write, but somebody may.
func TestForeignCells(t *testing.T) {
	for cell, want := range map[string]string{`'north`: "'north", `'`: "'", `\u0041`: "A", "'\t=": "\t="} {
		text, err := decodeText(cell)
		require.NoError(t, err)
		require.Equal(t, want, text)
	}
	for _, cell := range []string{`C:\salt`, `\`, `\x4`, `\xzz`, `\u12`, `\ud800`, `\U00110000`, `\Uffffffff`, `\u+041`} {
		_, err := decodeText(cell)
		require.ErrorContains(t, err, `has a backslash that is no escape; allowed: \\ for one backslash`, cell)
	}
}

// requireCell checks what holds of any text: it comes back, and its cell is harmless.
func requireCell(t require.TestingT, text string) {
	cell := encodeText(text)
	back, err := decodeText(cell)
	require.NoError(t, err)
	require.Equal(t, text, back)
	require.True(t, utf8.ValidString(cell))
	require.NotContains(t, "=+-@\t\r", first(cell))
	for _, r := range cell {
		require.False(t, unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp), "%q", cell)
	}
}

func first(cell string) string {
	if cell == "" {
		return "none"
	}
	return cell[:1]
}

func TestAnyTextComesBack(t *testing.T) {
	awkward := rapid.SliceOf(rapid.SampledFrom([]string{
		"'", "=", "+", "-", "@", "\t", "\r", "\n", `\`, `\x`, `\u00`, "0", ",", `"`, "\xff", "\xe2\x80", "\u202e", "\ufeff", "＝", "a", " ",
	}))
	rapid.Check(t, func(t *rapid.T) {
		requireCell(t, rapid.String().Draw(t, "text"))
		requireCell(t, string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")))
		requireCell(t, strings.Join(awkward.Draw(t, "awkward"), ""))
	})
}

func FuzzCell(f *testing.F) {
	for _, text := range []string{"mixer", "=1+1", "'", "''=", `\`, "\xff\x00", "\u202e\n"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		requireCell(t, text)
		if got, err := decodeText(text); err == nil { // as somebody may have written it
			requireCell(t, got)
		}
	})
}
