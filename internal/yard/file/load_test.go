package file

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// filling is a comment of so many bytes.
func filling(size int) *fstest.MapFile {
	return &fstest.MapFile{Data: []byte("#" + strings.Repeat("x", size-1))}
}

var files = fstest.MapFS{
	"yards/north.toml": {Data: []byte(good)},
	"wrong.toml":       {Data: []byte("name = \"a\"\ncolour = 1\n")},
	"empty.toml":       {},
	"large.toml":       filling(1 << 20),
	"larger.toml":      filling(1<<20 + 1),
	"link.toml":        {Mode: fs.ModeNamedPipe},
}

func TestLoad(t *testing.T) {
	y, err := Load(files.Open, "yards/north.toml")
	require.NoError(t, err)
	require.Equal(t, "yards/north.toml", y.Path)
	require.Len(t, y.Tanks, 4)
	for _, path := range []string{"empty.toml", "large.toml"} {
		y, err := Load(files.Open, path)
		require.NoError(t, err, path)
		require.Equal(t, &yard.Yard{Path: path}, y)
	}
}

func TestLoadFaults(t *testing.T) {
	for path, want := range map[string]string{
		"wrong.toml":  `wrong.toml:2:1: unknown key "colour"; allowed: blend, cleaning, destination, glass, hydrometer, line, liquid, mixing_tank, name, other_pump, plumbing, prices, pump, route, salt, storage_tank, supply, target, thermometer, truck, units, valve`,
		"larger.toml": "larger.toml: too large for a yard file; allowed: up to 1 MiB",
		"yards":       "yards: not a file; allowed: the path of a yard file",
		"link.toml":   "link.toml: not a file; allowed: the path of a yard file",
		"south.toml":  "south.toml: file does not exist; allowed: the path of a yard file",
	} {
		_, err := Load(files.Open, path)
		require.EqualError(t, err, want)
		var e *Error
		require.ErrorAs(t, err, &e)
		require.Equal(t, path, e.Path)
	}
}

// The same from a disk, where paths are those of the system.
func TestLoadFromDisk(t *testing.T) {
	open := func(path string) (fs.File, error) { return os.Open(path) }
	folder := t.TempDir()
	path := filepath.Join(folder, "north yard.toml")
	require.NoError(t, os.WriteFile(path, []byte(good), 0o600))
	y, err := Load(open, path)
	require.NoError(t, err)
	require.Equal(t, path, y.Path)

	_, err = Load(open, folder)
	require.EqualError(t, err, folder+": not a file; allowed: the path of a yard file")
	_, err = Load(open, filepath.Join(folder, "none.toml"))
	var e *Error
	require.ErrorAs(t, err, &e)
	require.Equal(t, filepath.Join(folder, "none.toml"), e.Path)
	require.NotContains(t, e.Message, folder) // the path once, not twice
}

// broken is a file whose reading fails halfway.
type broken struct{ fs.File }

var errBroken = errors.New("input/output error")

func (broken) Read(p []byte) (int, error) { return copy(p, "name = "), errBroken }

func TestLoadOfFileThatCannotBeRead(t *testing.T) {
	open := func(path string) (fs.File, error) {
		f, err := files.Open(path)
		return broken{f}, err
	}
	_, err := Load(open, "empty.toml")
	require.EqualError(t, err, "empty.toml: input/output error")
}

// closed counts how often a file was closed.
type closed struct {
	fs.File
	times *int
}

func (c closed) Close() error { *c.times++; return c.File.Close() }

// Whatever is opened is closed.
func TestLoadCloses(t *testing.T) {
	for path := range files {
		times := 0
		_, _ = Load(func(path string) (fs.File, error) {
			f, err := files.Open(path)
			return closed{f, &times}, err
		}, path)
		require.Equal(t, 1, times, path)
	}
}
