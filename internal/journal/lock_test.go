package journal

import (
	"os"
	"testing"

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
	release, err := exclusive(path)
	require.NoError(t, err)
	require.False(t, free((*flock.Flock).TryLock))
	require.False(t, free((*flock.Flock).TryRLock))
	release()
	release = shared(path)
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
	release, err := exclusive(path)
	require.NoError(t, err)
	require.False(t, current(l))
	release()
	require.NoError(t, l.Unlock())
}
