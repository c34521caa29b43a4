// Command release builds the program for every system and packs it: the same source
// gives the same bytes, whoever builds it with the same Go. It is for make dist.
package main

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// targets are the systems and processors.
var targets = []struct{ system, processor string }{
	{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"},
}

func main() {
	version := flag.String("version", "", "version to stamp")
	out := flag.String("out", "dist", "folder to fill")
	flag.Parse()
	if *version == "" || flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "release: -version is missing; allowed: like -version 1.2.0")
		os.Exit(2)
	}
	if err := release(*version, *out); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// release fills the folder with an archive for each target, and their checksums.
func release(version, out string) error {
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	sums := ""
	for _, t := range targets {
		program, err := build(version, t.system, t.processor)
		if err != nil {
			return err
		}
		name := fmt.Sprintf("brineyard-%s-%s-%s", version, t.system, t.processor)
		files, err := contents(t.system, program)
		if err != nil {
			return err
		}
		archive, pack := name+".tar.gz", tarball
		if t.system == "windows" {
			archive, pack = name+".zip", zipped
		}
		text, err := pack(name, files)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(out, archive), text, 0o644); err != nil {
			return err
		}
		sums += fmt.Sprintf("%x  %s\n", sha256.Sum256(text), archive)
	}
	return os.WriteFile(filepath.Join(out, "SHA256SUMS"), []byte(sums), 0o644)
}

// build compiles the program, static and without paths of this machine.
func build(version, system, processor string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "release-*")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "brineyard")
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid= -X brineyard/internal/cli.version="+version, "-o", path, "brineyard/cmd/brineyard")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+system, "GOARCH="+processor, "GOFLAGS=")
	if text, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%s/%s: %w: %s", system, processor, err, text)
	}
	return os.ReadFile(path)
}
