package run

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/words"
)

// createFile writes a file that is not there yet. It gets its name only when it is whole,
// so that an interruption leaves none or all of it under that name.
func createFile(path string, text []byte) error {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "create", Path: path, Err: fs.ErrExist}
	}
	whole, err := writeBeside(path, text, 0o644)
	if err != nil {
		return err
	}
	defer os.Remove(whole)
	err = os.Link(whole, path)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	return createPlain(path, text) // a file system without links
}

// writeBeside writes a text whole into a new file in the folder of path, and returns its name, for the caller to rename or
// to remove. A failure leaves no file.
func writeBeside(path string, text []byte, mode fs.FileMode) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(path), ".brineyard-*")
	if err != nil {
		return "", err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Chmod(mode), f.Sync(), f.Close()); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}

func createPlain(path string, text []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

// CreateNew writes a file that is not there yet; flag is what named it.
func (e *Env) CreateNew(flag, path string, text []byte) error {
	place := strings.TrimSpace(flag + " " + words.Quoted(path))
	switch err := e.Create(path, text); {
	case errors.Is(err, fs.ErrExist):
		return fault.Refuse("%s: there is one already, and it is left as it is; allowed: another name", place)
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, fs.ErrPermission):
		return fault.Refuse("%s: cannot be written there: %v; allowed: a folder that is there and can be written to", place, Reason(err))
	default:
		return err
	}
}

// Reason is the cause of a failure with a file, without the path again.
func Reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}
