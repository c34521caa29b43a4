package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// The same source gives the same program, with the version stamped and no path of this
// machine in it; make dist asks for it, since it compiles everything anew.
func TestBuildIsReproducible(t *testing.T) {
	if os.Getenv("BRINEYARD_RELEASE") == "" {
		t.Skip("for make dist")
	}
	first, err := build("1.2.3", runtime.GOOS, runtime.GOARCH)
	require.NoError(t, err)
	second, err := build("1.2.3", runtime.GOOS, runtime.GOARCH)
	require.NoError(t, err)
	require.True(t, bytes.Equal(first, second))
	here, err := os.Getwd()
	require.NoError(t, err)
	require.False(t, bytes.Contains(first, []byte(filepath.Dir(filepath.Dir(here)))), "the program names the folder it was built in")

	path := filepath.Join(t.TempDir(), "brineyard.exe")
	require.NoError(t, os.WriteFile(path, first, 0o755))
	out, err := exec.Command(path, "--version").Output()
	require.NoError(t, err)
	require.Equal(t, "brineyard 1.2.3\n", string(out))
}

// Archives hold what they are to hold, and are the same each time.
func TestArchives(t *testing.T) {
	files := []file{{"brineyard", 0o755, []byte("program")}, {"README.md", 0o644, []byte("read")}}
	packed, err := tarball("brineyard-1", files)
	require.NoError(t, err)
	again, err := tarball("brineyard-1", files)
	require.NoError(t, err)
	require.Equal(t, packed, again)
	z, err := gzip.NewReader(bytes.NewReader(packed))
	require.NoError(t, err)
	r := tar.NewReader(z)
	h, err := r.Next()
	require.NoError(t, err)
	require.Equal(t, "brineyard-1/brineyard", h.Name)
	require.EqualValues(t, 0o755, h.Mode)
	text, err := io.ReadAll(r)
	require.NoError(t, err)
	require.Equal(t, "program", string(text))

	packed, err = zipped("brineyard-1", files)
	require.NoError(t, err)
	again, err = zipped("brineyard-1", files)
	require.NoError(t, err)
	require.Equal(t, packed, again)
	zr, err := zip.NewReader(bytes.NewReader(packed), int64(len(packed)))
	require.NoError(t, err)
	require.Len(t, zr.File, 2)
	require.Equal(t, "brineyard-1/README.md", zr.File[1].Name)
}

// Whoever gets the program gets the terms of all that is linked into it, the fonts' among them.
func TestNotices(t *testing.T) {
	text, err := notices()
	require.NoError(t, err)
	modules, err := linked()
	require.NoError(t, err)
	require.Greater(t, len(modules), 8)
	for _, m := range modules {
		require.Contains(t, string(text), "\n==== "+m.name+", ")
	}
	for _, words := range []string{"SIL OPEN FONT LICENSE", "The Go Authors", "Apache License", "LICENSE-SIL"} {
		require.Contains(t, string(text), words)
	}
	again, err := notices()
	require.NoError(t, err)
	require.Equal(t, text, again)
	t.Chdir(filepath.Join("..", ".."))
	files, err := contents("linux", nil)
	require.NoError(t, err)
	require.Equal(t, "NOTICES.txt", files[1].name)
}
