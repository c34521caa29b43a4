package run

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// What exists is never overwritten.
func TestCreateKeepsWhatIsThere(t *testing.T) {
	file := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	for _, create := range []func(string, []byte) error{createFile, createPlain} {
		require.ErrorIs(t, create(file, []byte("theirs")), os.ErrExist)
		other := filepath.Join(t.TempDir(), "new")
		require.NoError(t, create(other, []byte("text")))
		text, err := os.ReadFile(other)
		require.NoError(t, err)
		require.Equal(t, "text", string(text))
		left, err := os.ReadDir(filepath.Dir(other))
		require.NoError(t, err)
		require.Len(t, left, 1)
	}
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "mine", string(text))
}
