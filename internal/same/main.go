// Command same runs thousands of random command lines on an old and a new build of the
// program, and tells where they answer differently: in the exit status, in a stream, in
// a file that they write. It is for make same.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// The exit statuses.
const (
	statusSame   = 0
	statusDiffer = 1
	statusUsage  = 2
)

// options are what the command line of this program says.
type options struct {
	before, after string
	lines         int
	line          int
	seed          uint64
	only          string
	first         int
	testdata      string
	out           io.Writer
}

func main() {
	o := options{out: os.Stdout}
	flag.StringVar(&o.before, "old", "", "the old program")
	flag.StringVar(&o.after, "new", "", "the new program")
	flag.IntVar(&o.lines, "lines", 5000, "how many lines")
	flag.IntVar(&o.line, "line", -1, "the line of this number alone")
	flag.Uint64Var(&o.seed, "seed", 1, "which lines")
	flag.StringVar(&o.only, "only", "", "lines of this command alone, like check or \"journal add\"")
	flag.IntVar(&o.first, "show", 10, "how many lines that differ are shown")
	flag.StringVar(&o.testdata, "testdata", "testdata", "folder with the demo's files")
	flag.Parse()
	same, err := o.run()
	switch {
	case err != nil:
		fmt.Fprintln(os.Stderr, "same:", err)
		os.Exit(statusUsage)
	case !same:
		os.Exit(statusDiffer)
	}
	os.Exit(statusSame)
}

// run compares the programs and prints what came of it.
func (o *options) run() (bool, error) {
	if err := o.check(); err != nil {
		return false, err
	}
	shared, err := readFixtures(o.testdata)
	if err != nil {
		return false, err
	}
	folder, err := os.MkdirTemp("", "same-*")
	if err != nil {
		return false, err
	}
	c := &comparison{before: o.before, after: o.after, shared: shared, seed: o.seed, only: o.only, folder: folder}
	numbers := numbersTo(o.lines)
	if o.line >= 0 {
		numbers = []int{o.line}
	}
	outcomes, err := c.all(numbers)
	if err != nil {
		return false, err
	}
	same := show(o.out, outcomes, o.first)
	if same {
		return true, os.RemoveAll(folder)
	}
	return false, nil
}

// check makes the programs' paths good in any folder.
func (o *options) check() error {
	for _, p := range []struct {
		name string
		path *string
	}{{"old", &o.before}, {"new", &o.after}} {
		if *p.path == "" {
			return fmt.Errorf("-%s is missing; allowed: the path of a program", p.name)
		}
		full, err := filepath.Abs(*p.path)
		if err == nil {
			_, err = os.Stat(full)
		}
		if err != nil {
			return fmt.Errorf("-%s %s: %w; allowed: the path of a program", p.name, *p.path, err)
		}
		*p.path = full
	}
	if len(commandsFor(o.only)) == 0 {
		return fmt.Errorf("-only %q: no such command; allowed: like check or \"journal add\"", o.only)
	}
	if o.lines < 1 {
		return errors.New("-lines: nothing to compare; allowed: 1 and more")
	}
	return nil
}
