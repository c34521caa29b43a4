//go:build linux || darwin

package disk

import (
	"brineyard/internal/journal"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// addAtLimit tries to add three rows while no file may grow beyond each of the sizes,
// as on a full disk. It prints the sizes at which that succeeded.
func addAtLimit(path, sizes string) error {
	signal.Ignore(syscall.SIGXFSZ)
	for _, word := range strings.Fields(sizes) {
		size, err := strconv.ParseUint(word, 10, 63)
		if err != nil {
			return err
		}
		var limit syscall.Rlimit
		if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
		limit.Cur = size
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
		if a, err := Append(path, Options{}, []journal.Entry{batch(), load(), batch()}); err != nil {
			fmt.Println(err)
		} else {
			fmt.Println("added", a.Numbers)
		}
	}
	return nil
}

// full runs addAtLimit and returns its lines.
func full(t *testing.T, path string, sizes ...int) []string {
	out, err := child(t, "limit", path, strings.Trim(fmt.Sprint(sizes), "[]")).Output()
	require.NoError(t, err)
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

// On a full disk, nothing is recorded and the file is what it was.
func TestFullDisk(t *testing.T) {
	path := made(t, batch(), load(), batch(), load()) // larger than the side file
	before := content(t, path)
	size := len(before)
	for _, line := range full(t, path, size, size+1, size+50, size+200, size+300) {
		require.Equal(t, path+": nothing was recorded: file too large", line)
	}
	require.Equal(t, before, content(t, path))
	require.Equal(t, []string{"added [5 6 7]"}, full(t, path, size+5000))
	requireSound(t, path, 7)
}

// A new file that could not be filled does not stay, and an empty one stays empty.
func TestFullDiskForNewFile(t *testing.T) {
	path := fresh(t)
	for _, line := range full(t, path, 0, 1, 100, 250, 400) {
		require.Regexp(t, "^"+path+": nothing was recorded: .*file too large$", line)
	}
	require.NoFileExists(t, path)
	require.NoFileExists(t, path+endSuffix)
	write(t, path, "")
	full(t, path, 0, 100)
	require.Empty(t, content(t, path))
	require.FileExists(t, path)
}

// Where a torn line cannot be kept, it stays where it is.
func TestFullDiskForTornLine(t *testing.T) {
	path := made(t, batch())
	before := content(t, path) + "2,2026-01"
	write(t, path, before)
	lines := full(t, path, 5)
	require.Equal(t, []string{path + ": nothing was added: the torn last line could not be kept in " + path + ".torn: file too large"}, lines)
	require.Equal(t, before, content(t, path))
	require.Empty(t, content(t, path+tornSuffix))
}

// A pipe is refused before anybody waits for its other end, a device likewise.
func TestNoRegularFile(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe.csv")
	require.NoError(t, syscall.Mkfifo(pipe, 0o644))
	requireRefused(t, pipe, "not a regular file")
	_, err := Append(os.DevNull, Options{}, []journal.Entry{batch()})
	require.EqualError(t, err, os.DevNull+": not a regular file")
	path := made(t, batch())
	require.NoError(t, os.Remove(path+endSuffix))
	require.NoError(t, syscall.Mkfifo(path+endSuffix, 0o644))
	require.Equal(t, EndDamaged, requireSound(t, path, 1).End)
	_, err = Append(path, Options{}, []journal.Entry{batch()})
	require.ErrorContains(t, err, path+".end: not a regular file")
}

// What is made follows the umask.
func TestUmask(t *testing.T) {
	before := syscall.Umask(0o027)
	defer syscall.Umask(before)
	path := made(t, batch())
	write(t, path, content(t, path)+"2,torn")
	mustAppend(t, path, load())
	for _, name := range []string{path, path + endSuffix, path + tornSuffix} {
		there, err := os.Stat(name)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o640), there.Mode().Perm(), name)
	}
}
