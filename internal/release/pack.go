package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"os"
	"path/filepath"
	"time"
)

// file is one of an archive.
type file struct {
	name string
	mode int64
	text []byte
}

// contents are the program, what to read first, and the manual pages where there are
// readers for them.
func contents(system string, program []byte) ([]file, error) {
	name := "brineyard"
	if system == "windows" {
		name += ".exe"
	}
	terms, err := notices()
	if err != nil {
		return nil, err
	}
	files := []file{{name, 0o755, program}, {"NOTICES.txt", 0o644, terms}}
	paths := []string{"README.md", filepath.Join("docs", "reference.md")}
	if system != "windows" {
		pages, err := filepath.Glob(filepath.Join("docs", "man", "*.1"))
		if err != nil {
			return nil, err
		}
		paths = append(paths, pages...)
	}
	for _, p := range paths {
		text, err := os.ReadFile(p)
		if err != nil {
			return nil, err
		}
		files = append(files, file{filepath.ToSlash(p), 0o644, text})
	}
	return files, nil
}

// moment is when every file was made: archives do not depend on the clock.
var moment = time.Date(2020, 1, 1, 0, 0, 0, 0, time.UTC)

func tarball(folder string, files []file) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	t := tar.NewWriter(z)
	for _, f := range files {
		h := &tar.Header{Name: folder + "/" + f.name, Mode: f.mode, Size: int64(len(f.text)), ModTime: moment, Format: tar.FormatUSTAR}
		if err := t.WriteHeader(h); err != nil {
			return nil, err
		}
		if _, err := t.Write(f.text); err != nil {
			return nil, err
		}
	}
	if err := t.Close(); err != nil {
		return nil, err
	}
	err = z.Close()
	return b.Bytes(), err
}

func zipped(folder string, files []file) ([]byte, error) {
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, f := range files {
		w, err := z.CreateHeader(&zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: moment})
		if err != nil {
			return nil, err
		}
		if _, err := w.Write(f.text); err != nil {
			return nil, err
		}
	}
	err := z.Close()
	return b.Bytes(), err
}
