package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

// noticeFile is what a module calls the terms under which it may be passed on.
var noticeFile = regexp.MustCompile(`(?i)^(licen[sc]e|copying|notice|patents|authors|ftl|gpl)`)

// notices are the terms of everything that is linked into the program, its fonts among it: the
// modules that it is built of, and Go's own library.
func notices() ([]byte, error) {
	modules, err := linked()
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	fmt.Fprintln(&out, "brineyard is built with the work of others, under these terms.")
	for _, m := range modules {
		files, err := noticesIn(m.folder)
		if err != nil {
			return nil, err
		}
		if len(files) == 0 {
			return nil, fmt.Errorf("%s says no terms, so it cannot be passed on", m.name)
		}
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				return nil, err
			}
			fmt.Fprintf(&out, "\n==== %s, %s\n\n%s\n", m.name, filepath.Base(f), bytes.TrimSpace(text))
		}
	}
	return out.Bytes(), nil
}

// module is code of others, and where it stands.
type module struct{ name, folder string }

// linked are the modules of the program's packages, by name, with Go's library first.
func linked() ([]module, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, err
	}
	list, err := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}{{end}}{{end}}", "brineyard/cmd/brineyard").Output()
	if err != nil {
		return nil, err
	}
	all := []module{{"Go's standard library", strings.TrimSpace(string(root))}}
	lines := strings.Split(strings.TrimSpace(string(list)), "\n")
	slices.Sort(lines)
	for _, line := range slices.Compact(lines) {
		if name, folder, ok := strings.Cut(line, "\t"); ok {
			all = append(all, module{name, folder})
		}
	}
	return all, nil
}

// noticesIn finds the terms at the top of a module, and in the folder that some keep them in.
func noticesIn(folder string) (files []string, err error) {
	for _, dir := range []string{folder, filepath.Join(folder, "licenses")} {
		entries, err := os.ReadDir(dir)
		if err != nil && !os.IsNotExist(err) {
			return nil, err
		}
		for _, e := range entries {
			if !e.IsDir() && e.Type()&fs.ModeType == 0 && noticeFile.MatchString(e.Name()) {
				files = append(files, filepath.Join(dir, e.Name()))
			}
		}
	}
	return files, nil
}
