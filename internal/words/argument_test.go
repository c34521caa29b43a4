package words

import (
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A name is pasted as one word, whatever is in it.
func TestArgument(t *testing.T) {
	for text, want := range map[string]string{
		"north": "north", "north-2": "north-2", "": "''", "big sprayer": "'big sprayer'", "Tom's": `'Tom'\''s'`, "a$b": "'a$b'", "-5F": "-5F",
	} {
		require.Equal(t, want, Argument(text))
	}
}

// The shell itself gives the word back (POSIX sh, 2.2.2 single quotes).
func TestArgumentInAShell(t *testing.T) {
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no sh here")
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[ -~äöü]{0,20}`).Draw(t, "name")
		out, err := exec.Command(sh, "-c", "printf %s "+Argument(text)).Output()
		require.NoError(t, err)
		require.Equal(t, text, string(out))
	})
}
