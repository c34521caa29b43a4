package journal

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"brineyard/internal/quantity"

	"github.com/gofrs/flock"
	"github.com/stretchr/testify/require"
)

// A writer keeps everybody out, a reader keeps writers out.
func TestLocks(t *testing.T) {
	path := made(t, batch())
	free := func(try func(*flock.Flock) (bool, error)) bool {
		l := flock.New(path + lockSuffix)
		ok, err := try(l)
		require.NoError(t, err)
		require.NoError(t, l.Unlock())
		return ok
	}
	release, err := lockToWrite(path)
	require.NoError(t, err)
	require.False(t, free((*flock.Flock).TryLock))
	require.False(t, free((*flock.Flock).TryRLock))
	release()
	release = lockToRead(path)
	require.False(t, free((*flock.Flock).TryLock))
	require.True(t, free((*flock.Flock).TryRLock))
	release()
	require.True(t, free((*flock.Flock).TryLock))
}

// A lock on a file that somebody has removed is worth nothing.
func TestLockOfRemovedFile(t *testing.T) {
	path := made(t, batch())
	l := flock.New(path + lockSuffix)
	require.NoError(t, l.Lock())
	require.True(t, current(l))
	if err := os.Remove(path + lockSuffix); err != nil {
		t.Skip(err)
	}
	require.False(t, current(l))
	release, err := lockToWrite(path)
	require.NoError(t, err)
	require.False(t, current(l))
	release()
	require.NoError(t, l.Unlock())
}

// Reading makes nothing, and neither does an attempt to add to a file that is no journal.
func TestNoLockBesideOthers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(path, []byte("name = \"yard\"\n"), 0o644))
	_, err := Read(path)
	require.ErrorContains(t, err, "not a journal")
	_, err = Append(path, quantity.US, []Entry{{Time: time.Now(), Kind: Note, Note: "x"}})
	require.ErrorContains(t, err, "not a journal")
	require.NoFileExists(t, path+lockSuffix)
}
