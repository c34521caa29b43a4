package disk

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"
)

// The lock is held on the journal itself, on the descriptor that reads and writes it: two names
// of one file are under one lock, and there is no other file that somebody could remove. A
// PATH.lock of an earlier version means nothing any more.

const (
	usualWait     = 30 * time.Second
	usualPatience = time.Second // after which Options.Waiting is called
)

// openLocked opens the journal at path and locks it, to write or to read alone. The file is the
// one that stands at path when it is locked. make tells that one that is not there is to be made;
// made tells that it was.
func openLocked(path string, write, make bool, o Options) (f *os.File, real string, made bool, err error) {
	for {
		real, found, err := resolve(path)
		if err != nil {
			return nil, "", false, err
		}
		if !found && !make {
			return nil, "", false, fmt.Errorf("%s: %w", path, os.ErrNotExist)
		}
		f, err := os.OpenFile(real, openFlags(write, found), 0o666)
		if errors.Is(err, fs.ErrExist) || found && errors.Is(err, fs.ErrNotExist) {
			continue // somebody made or removed it just now
		}
		if err != nil {
			return nil, "", false, fmt.Errorf("%s: %w", path, reason(err))
		}
		if err := hold(f, write, o); err != nil {
			_ = f.Close()
			return nil, "", false, fmt.Errorf("%s: %w", path, reason(err))
		}
		if isAt(f, path) {
			return f, real, !found, nil
		}
		_ = f.Close() // it was removed or replaced before it was locked
	}
}

func openFlags(write, found bool) int {
	switch {
	case !write:
		return os.O_RDONLY
	case found:
		return os.O_RDWR
	}
	return os.O_RDWR | os.O_CREATE | os.O_EXCL
}

// hold waits for the lock. A file system without locks does not keep a reader from reading.
func hold(f *os.File, write bool, o Options) error {
	wait, waiting, patience := cmp.Or(o.Wait, usualWait), o.Waiting, cmp.Or(o.patience, usualPatience)
	began := time.Now()
	for pause := time.Millisecond; ; pause = min(2*pause, 16*time.Millisecond) {
		ok, err := tryLock(f, write)
		if ok || (err != nil && !write) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("it cannot be locked: %w", err)
		}
		waited := time.Since(began)
		if waited >= wait {
			return fmt.Errorf("another program holds it, and did not let go of it in %v; nothing was done; allowed: when that program has ended", wait)
		}
		if waiting != nil && waited >= patience {
			waiting()
			waiting = nil
		}
		time.Sleep(pause)
	}
}

// located is a file that can tell which one it is.
type located interface{ Stat() (fs.FileInfo, error) }

// isAt tells whether an open file is the one at a path.
func isAt(f located, path string) bool {
	held, err := f.Stat()
	if err != nil {
		return false
	}
	there, err := os.Stat(path)
	return err == nil && os.SameFile(held, there)
}
