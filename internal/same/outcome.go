package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"sync"
)

// outcome is what came of a line on both programs.
type outcome struct {
	line        *line
	answered    bool // status 0, by the old program
	differences []difference
	meant       []string // the expected differences that it has
	folder      string
}

// comparison is a run of lines on two programs.
type comparison struct {
	before, after string // the programs
	shared        *fixtures
	seed          uint64
	only          string
	folder        string // with a folder for each line
}

// all compares the lines of these numbers, as many at once as there are processors.
func (c *comparison) all(numbers []int) ([]outcome, error) {
	outcomes := make([]outcome, len(numbers))
	errs := make([]error, len(numbers))
	next := make(chan int)
	var workers sync.WaitGroup
	for range runtime.NumCPU() {
		workers.Go(func() {
			for i := range next {
				outcomes[i], errs[i] = c.one(drawLine(c.shared, c.seed, numbers[i], c.only))
			}
		})
	}
	for i := range numbers {
		next <- i
	}
	close(next)
	workers.Wait()
	return outcomes, cmp.Or(errs...)
}

// one compares a line. Its folder stays if the programs differ.
func (c *comparison) one(l *line) (outcome, error) {
	o := outcome{line: l, folder: filepath.Join(c.folder, fmt.Sprintf("%06d", l.number))}
	if l.key != nil {
		key, err := run(c.before, filepath.Join(o.folder, "key"), &line{words: l.key, env: l.env, files: l.files})
		if err != nil {
			return o, err
		}
		l.input = typed(l.number, answersOf(key.stdout))
	}
	before, err := run(c.before, filepath.Join(o.folder, "old"), l)
	if err != nil {
		return o, err
	}
	after, err := run(c.after, filepath.Join(o.folder, "new"), l)
	if err != nil {
		return o, err
	}
	o.answered = before.status == 0
	o.differences, o.meant = judge(expectations(), l, before, after)
	if len(o.differences) == 0 {
		return o, os.RemoveAll(o.folder)
	}
	return o, o.keep(before, after)
}

// keep writes what the programs said beside the files that they left.
func (o *outcome) keep(before, after *result) error {
	var err error
	for name, text := range map[string]string{
		"line": o.line.String() + "\n", "old.stdout": before.stdout, "old.stderr": before.stderr,
		"new.stdout": after.stdout, "new.stderr": after.stderr, "input": o.line.input,
	} {
		err = cmp.Or(err, os.WriteFile(filepath.Join(o.folder, name), []byte(text), 0o644))
	}
	return err
}

// numbersTo are the numbers of so many lines.
func numbersTo(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i)
	}
	return out
}
