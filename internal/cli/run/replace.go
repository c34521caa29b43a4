package run

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
)

// errChanged is returned for a file that somebody else has written since it was read.
var errChanged = errors.New("it has changed since it was read; nothing was written")

// Read reads a file whole.
func (e *Env) Read(path string) ([]byte, error) {
	f, err := e.Open(path)
	if err != nil {
		return nil, err
	}
	text, err := io.ReadAll(f)
	return text, errors.Join(err, f.Close())
}

// replaceFile writes a file anew, as one that is there, with its permissions, and behind a link. It gets
// its name only when it is whole, so that an interruption leaves the old or the new one.
func replaceFile(path string, was, text []byte) error {
	path, err := filepath.EvalSymlinks(path)
	if err != nil {
		return err
	}
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	whole, err := writeBeside(path, text, info.Mode().Perm())
	if err != nil {
		return err
	}
	defer os.Remove(whole)
	now, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !bytes.Equal(now, was) {
		return errChanged
	}
	return os.Rename(whole, path)
}
