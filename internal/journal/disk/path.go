package disk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// resolve follows links, so that everybody who means the same file takes the same
// lock, and refuses what is not a regular file before anything opens it. found tells
// whether the file is there.
func resolve(path string) (real string, found bool, err error) {
	real, err = filepath.EvalSymlinks(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, e := os.Lstat(path); e != nil {
			return resolveNew(path)
		}
		// A link to nothing; or somebody has made the file just now.
		if real, err = filepath.EvalSymlinks(path); errors.Is(err, fs.ErrNotExist) {
			return "", false, fmt.Errorf("%s: a link to a file that is not there", path)
		}
	}
	if err != nil {
		return "", false, fmt.Errorf("%s: %w", path, reason(err))
	}
	info, err := os.Stat(real)
	if err != nil {
		return "", false, fmt.Errorf("%s: %w", path, reason(err))
	}
	return real, true, checkRegular(path, info)
}

// resolveNew is resolve for a file that is yet to be made.
func resolveNew(path string) (real string, found bool, err error) {
	dir, err := filepath.EvalSymlinks(filepath.Dir(path))
	if err != nil {
		return "", false, fmt.Errorf("%s: its folder: %w", path, reason(err))
	}
	return filepath.Join(dir, filepath.Base(path)), false, nil
}

// checkRegular refuses folders, devices and pipes.
func checkRegular(path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return fmt.Errorf("%s: a folder; expected a file", path)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s: not a regular file", path)
	}
	return nil
}

// checkRegularIfThere is checkRegular for a file that need not be there.
func checkRegularIfThere(path string) error {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, err := os.Lstat(path); err == nil {
			return fmt.Errorf("%s: a link to a file that is not there", path)
		}
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s: %w", path, reason(err))
	}
	return checkRegular(path, info)
}

// reason is the cause of a failure, without operation and path.
func reason(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
