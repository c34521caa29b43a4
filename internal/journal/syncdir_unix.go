//go:build !windows

package journal

import "os"

// syncDir makes the name of a new file last.
func syncDir(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}
