package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/gofrs/flock"
)

// The lock is held on a side file, PATH.lock, which stays and is always empty: the
// journal itself can then be replaced or copied by others without upsetting a lock.

const lockSuffix = ".lock"

// lockToWrite waits for the lock that a writer needs.
func lockToWrite(path string) (release func(), err error) {
	if err := checkRegularIfThere(path + lockSuffix); err != nil {
		return nil, err
	}
	for {
		if err := makeLock(path); err != nil {
			return nil, fmt.Errorf("%s: %w", path+lockSuffix, reason(err))
		}
		l := flock.New(path+lockSuffix, flock.SetFlag(os.O_RDWR))
		err := l.Lock()
		if errors.Is(err, fs.ErrPermission) {
			// It belongs to someone else; most systems lock it all the same.
			l = flock.New(path+lockSuffix, flock.SetFlag(os.O_RDONLY))
			err = l.Lock()
		}
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("%s: %w", path+lockSuffix, reason(err))
		}
		if current(l) {
			return func() { _ = l.Unlock() }, nil
		}
		_ = l.Unlock()
	}
}

// lockToRead waits for the lock that a reader takes, so that it never sees a row half
// written. Without a lock file nobody has written yet, or the journal was copied without
// it: then it takes no lock and makes no file, because reading changes nothing.
func lockToRead(path string) (release func()) {
	if checkRegularIfThere(path+lockSuffix) == nil {
		l := flock.New(path+lockSuffix, flock.SetFlag(os.O_RDONLY))
		if l.RLock() == nil {
			return func() { _ = l.Unlock() }
		}
	}
	return func() {}
}

// makeLock makes the side file if it is not there, open to whom the journal is.
func makeLock(path string) error {
	f, err := os.OpenFile(path+lockSuffix, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	if info, err := os.Stat(path); err == nil {
		_ = f.Chmod(info.Mode().Perm()) // others may then be refused, and hear so
	}
	return nil
}

// current tells whether the locked file is still the one at its path: somebody may
// have removed it in the meantime.
func current(l *flock.Flock) bool {
	held, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(l.Path())
	return err == nil && os.SameFile(held, there)
}
