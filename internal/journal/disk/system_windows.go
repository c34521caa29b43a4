package disk

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// syncDir does nothing: Windows has no way to flush a folder, and keeps its entries
// in order by itself.
func syncDir(string) error { return nil }

// beyond is where the locked byte lies: a lock keeps others from reading what it covers, and no
// journal reaches there.
func beyond() *windows.Overlapped { return &windows.Overlapped{OffsetHigh: 1 << 30} }

// tryLock locks a file if nobody else has it locked. The lock goes with unlock, with the
// descriptor, or with the process.
func tryLock(f *os.File, write bool) (ok bool, err error) {
	how := uint32(windows.LOCKFILE_FAIL_IMMEDIATELY)
	if write {
		how |= windows.LOCKFILE_EXCLUSIVE_LOCK
	}
	err = windows.LockFileEx(windows.Handle(f.Fd()), how, 0, 1, 0, beyond())
	if errors.Is(err, windows.ERROR_LOCK_VIOLATION) || errors.Is(err, windows.ERROR_IO_PENDING) {
		return false, nil
	}
	return err == nil, err
}

func unlock(f *os.File) { _ = windows.UnlockFileEx(windows.Handle(f.Fd()), 0, 1, 0, beyond()) }

// removeMade leaves a new file that could not be filled, empty: Windows removes no open file, and
// after the close somebody else may have locked it.
func removeMade(string) error { return nil }
