package run

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestReplaceFile(t *testing.T) {
	dir := t.TempDir()
	path, link := filepath.Join(dir, "yard.toml"), filepath.Join(dir, "link.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	require.NoError(t, os.Chmod(path, 0o640))
	require.NoError(t, os.Symlink(path, link))

	require.ErrorIs(t, replaceFile(link, []byte("other"), []byte("new")), errChanged)
	require.NoError(t, replaceFile(link, []byte("old"), []byte("new")))
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "new", string(text))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
	info, err = os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode().Perm())
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 2)
	require.Error(t, replaceFile(filepath.Join(dir, "none"), nil, nil))
}
