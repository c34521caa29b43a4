// Package run is what every command needs to run: the outside world, the yard file and the
// units in force, the question and its reply, and the record that a reply leaves.
package run

import (
	"io"
	"io/fs"
	"os"
	"time"

	"brineyard/internal/fault"
	"brineyard/internal/zone"

	tty "golang.org/x/term"
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
	// Replace writes a file anew that holds was.
	Replace func(path string, was, text []byte) error

	placed bool // Now shows the time of the place
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

		Replace: replaceFile,
	}
}

// settleZone makes the clock show the time of the place. Errors: a zone that is not there.
func (e *Env) settleZone() error {
	if e.placed {
		return nil
	}
	place, err := zone.Local(e.Getenv)
	if err != nil {
		return fault.Refuse("%v", err)
	}
	now := e.Now
	e.placed = true
	e.Now = func() time.Time { return now().In(place) }
	return nil
}

// columns is how wide the window is that the answer is shown in; false where it is shown in none.
func (e *Env) columns() (int, bool) {
	f, ok := e.Out.(*os.File)
	if !ok {
		return 0, false
	}
	wide, _, err := tty.GetSize(int(f.Fd()))
	return wide, err == nil && wide > 0
}

// IsTerminal tells whether a stream is read by a person as it comes.
func IsTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && tty.IsTerminal(int(f.Fd()))
}
