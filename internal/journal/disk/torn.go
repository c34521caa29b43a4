package disk

import (
	"fmt"
	"io"
	"os"
)

const tornSuffix = ".torn"

// setAside moves the torn end of a journal to its side file. It is on the disk there
// before it is cut off here.
func (w *writer) setAside() error {
	side := w.real + tornSuffix
	if err := checkRegularIfThere(side); err != nil {
		return err
	}
	f, err := os.OpenFile(side, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return fmt.Errorf("%s: %w", side, reason(err))
	}
	defer f.Close()
	info, err := f.Stat()
	if err == nil {
		err = w.copyTorn(f, info.Size())
	}
	if err == nil {
		err = w.syncDir()
	}
	if err != nil {
		return fmt.Errorf("the torn last line could not be kept in %s: %w", side, reason(err))
	}
	err = w.f.Truncate(w.size)
	if err == nil {
		err = w.f.Sync()
	}
	if err != nil {
		return fmt.Errorf("the torn last line could not be cut off: %w", reason(err))
	}
	return nil
}

// copyTorn writes the torn bytes and a line end to the end of a file, or leaves that
// file as it was.
func (w *writer) copyTorn(to *os.File, end int64) error {
	torn := io.NewSectionReader(w.f, w.size, w.torn)
	n, err := io.Copy(io.NewOffsetWriter(to, end), torn)
	if err == nil {
		_, err = to.WriteAt([]byte("\n"), end+n)
	}
	if err == nil {
		err = to.Sync()
	}
	if err != nil {
		_ = to.Truncate(end)
	}
	return err
}
