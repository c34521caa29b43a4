package file

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEdit(t *testing.T) {
	const before = "# ours\n[[glass]]\nname = \"a\"\nscale = \"hydrometer\"\noffset = '0.1%'   # by Rowan\n\n" +
		"[[glass]] # the other\nname = \"b\" # old\nscale = \"sg\"\n\n[thermometer]\ndivision = 2 # F\n"
	after, err := Edit(before, "glass", 0, []Setting{{"offset", `"0.2%"`}, {"checked", `"2026-11-26"`}})
	require.NoError(t, err)
	require.Equal(t, strings.Replace(before, "offset = '0.1%'   # by Rowan\n", "offset = \"0.2%\"   # by Rowan\nchecked = \"2026-11-26\"\n", 1), after)
	after, err = Edit(before, "glass", 1, []Setting{{"offset", `"-0.001"`}})
	require.NoError(t, err)
	require.Equal(t, strings.Replace(before, "scale = \"sg\"\n", "scale = \"sg\"\noffset = \"-0.001\"\n", 1), after)
	after, err = Edit(before, "thermometer", 0, []Setting{{"division", `"1F"`}})
	require.NoError(t, err)
	require.Equal(t, strings.Replace(before, "division = 2 # F", "division = \"1F\" # F", 1), after)

	_, err = Edit("glass = [{name = \"a\", scale = \"sg\"}]\n", "glass", 0, []Setting{{"offset", `"1"`}})
	require.EqualError(t, err, "[glass] has no lines of its own there; allowed: with them, or offset written in by hand")
	_, err = Edit("[[glass]]\nname = \"a\"\noffset = \"\"\"\n0.1%\"\"\"\n", "glass", 0, []Setting{{"offset", `"1"`}})
	require.EqualError(t, err, "line 3 has another value than one on its line; allowed: offset written in by hand")
}

// Whatever is written into the example's glasses is read from it again, and nothing else has changed.
func TestEditedExample(t *testing.T) {
	was, err := Parse("yard.toml", Example)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		text := string(Example)
		if rapid.Bool().Draw(t, "windows") {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		i := rapid.IntRange(0, len(was.Glasses)-1).Draw(t, "glass")
		after, err := Edit(text, "glass", i, []Setting{{"offset", `"0.004"`}, {"checked", `"2026-11-26"`}, {"offset_sure", `"0.001"`}})
		require.NoError(t, err)
		now, err := Parse("yard.toml", []byte(after))
		require.NoError(t, err)
		require.Equal(t, time.Date(2026, 11, 26, 0, 0, 0, 0, time.UTC), now.Glasses[i].Checked)
		require.NotZero(t, now.Glasses[i].OffsetSure)
		now.Glasses[i] = was.Glasses[i]
		require.True(t, reflect.DeepEqual(was, now))
		require.Equal(t, strings.Count(text, "#"), strings.Count(after, "#"))
	})
}
