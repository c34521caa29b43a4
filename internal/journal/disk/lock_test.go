package disk

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// holds locks the file at path as another program would.
func holds(t *testing.T, path string, write bool) *os.File {
	t.Helper()
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	require.NoError(t, err)
	ok, err := tryLock(f, write)
	require.NoError(t, err)
	require.True(t, ok)
	t.Cleanup(func() { _ = f.Close() })
	return f
}

// A writer keeps everybody out, a reader keeps writers out, whatever name the file goes by.
func TestLocks(t *testing.T) {
	path := made(t, batch())
	other := filepath.Join(filepath.Dir(path), "other.csv")
	require.NoError(t, os.Link(path, other))
	free := func(write bool) bool {
		f, err := os.OpenFile(other, os.O_RDWR, 0)
		require.NoError(t, err)
		defer f.Close()
		ok, err := tryLock(f, write)
		require.NoError(t, err)
		return ok
	}
	f := holds(t, path, true)
	require.False(t, free(true))
	require.False(t, free(false))
	unlock(f)
	f = holds(t, path, false)
	require.False(t, free(true))
	require.True(t, free(false))
	unlock(f)
	require.True(t, free(true))
}

// A lock that is held is told of once, and given up on: nothing was done.
func TestHeldLock(t *testing.T) {
	path := made(t, batch())
	before := content(t, path)
	f := holds(t, path, true)
	_, err := Append(path, Options{Wait: 20 * time.Millisecond}, []journal.Entry{load()})
	require.EqualError(t, err, path+": another program holds it, and did not let go of it in 20ms; nothing was done; allowed: when that program has ended")
	require.Equal(t, before, content(t, path))
	told := 0
	_, err = Append(path, Options{patience: time.Millisecond, Waiting: func() { told++; unlock(f) }}, []journal.Entry{load()})
	require.NoError(t, err)
	require.Equal(t, 1, told)
	requireSound(t, path, 2)
}

// Reading makes nothing, and neither does an attempt to add to a file that is no journal. Links to
// nothing are refused.
func TestNothingBesideOthers(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.toml")
	require.NoError(t, os.WriteFile(path, []byte("name = \"yard\"\n"), 0o644))
	_, err := Read(path)
	require.ErrorContains(t, err, "not a journal")
	_, err = Append(path, Options{}, []journal.Entry{{Time: time.Now(), Kind: journal.Note, Note: "x"}})
	require.ErrorContains(t, err, "not a journal")
	require.NoFileExists(t, path+endSuffix)

	path = made(t, batch())
	require.NoError(t, os.Remove(path+endSuffix))
	require.Equal(t, EndUnknown, requireSound(t, path, 1).End)
	require.NoFileExists(t, path+endSuffix)
	if err := os.Symlink(path+".nowhere", path+endSuffix); err != nil {
		t.Skip(err)
	}
	_, err = Append(path, Options{}, []journal.Entry{load()})
	require.ErrorContains(t, err, path+".end: a link to a file that is not there")
	requireSound(t, path, 1)
}

// A new file is no more there than before if the entry is refused.
func TestRefusedEntryMakesNothing(t *testing.T) {
	path := fresh(t)
	bad := batch()
	bad.Kind = "boil"
	_, err := Append(path, Options{System: quantity.Metric}, []journal.Entry{bad})
	require.ErrorContains(t, err, "cannot be added")
	require.NoFileExists(t, path)
	require.NoFileExists(t, path+endSuffix)
}
