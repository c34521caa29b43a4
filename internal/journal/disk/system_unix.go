//go:build !windows

package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// syncDir makes the name of a new file last.
func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}

// tryLock locks a file if nobody else has it locked. The lock goes with unlock, with the
// last descriptor, or with the process.
func tryLock(f *os.File, write bool) (ok bool, err error) {
	how := unix.LOCK_SH
	if write {
		how = unix.LOCK_EX
	}
	for {
		err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
		switch {
		case err == nil:
			return true, nil
		case errors.Is(err, unix.EWOULDBLOCK):
			return false, nil
		case !errors.Is(err, unix.EINTR):
			return false, err
		}
	}
}

func unlock(f *os.File) { _ = unix.Flock(int(f.Fd()), unix.LOCK_UN) }

// removeMade removes a new file that could not be filled, under its lock: whoever waits for
// that finds it gone.
func removeMade(path string) error { return os.Remove(path) }
