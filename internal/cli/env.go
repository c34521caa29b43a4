// Package cli is the command line: one file a command, each from flags to a
// request, a calculator of internal/brine, and a report document.
package cli

import (
	"io"
	"io/fs"
	"os"
	"time"
)

// Env is what the program touches of the outside world.
type Env struct {
	In       io.Reader
	Out, Err io.Writer
	Getenv   func(string) string
	Now      func() time.Time
	Open     func(string) (fs.File, error)
	// Create writes a file that is not there yet; fs.ErrExist when it is.
	Create func(path string, text []byte) error
}

// System returns the real world.
func System() Env {
	return Env{
		In:     os.Stdin,
		Out:    os.Stdout,
		Err:    os.Stderr,
		Getenv: os.Getenv,
		Now:    time.Now,
		Open:   func(path string) (fs.File, error) { return os.Open(path) },
		Create: createFile,
	}
}
