package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// result is what a program made of a line.
type result struct {
	status         int
	stdout, stderr string
	files          map[string]string // all that stand in the folder afterwards, by path
}

// tooLong ends a run, as a difference that anybody would notice.
const tooLong = 30 * time.Second

// statusTooLong is that of a run that was ended.
const statusTooLong = -1

// run answers a line in a new folder. What hangs on the time of now is masked.
func run(program, folder string, l *line) (*result, error) {
	for path, text := range l.files {
		full := filepath.Join(folder, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
			return nil, err
		}
		if err := os.WriteFile(full, []byte(text), 0o644); err != nil {
			return nil, err
		}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return nil, err
	}
	began := time.Now()
	r, err := answer(program, folder, l)
	if err != nil {
		return nil, err
	}
	if r.files, err = filesIn(folder); err != nil {
		return nil, err
	}
	r.mask(began, time.Now())
	return r, nil
}

// answer runs the program. Its environment is empty but for the time zone and what the
// line sets.
func answer(program, folder string, l *line) (*result, error) {
	ctx, cancel := context.WithTimeout(context.Background(), tooLong)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, l.words...)
	cmd.Dir = folder
	cmd.Env = append([]string{"TZ=America/New_York"}, l.env...)
	var stdout, stderr bytes.Buffer
	cmd.Stdout, cmd.Stderr = &stdout, &stderr
	if l.input != "" {
		cmd.Stdin = strings.NewReader(l.input)
	}
	err := cmd.Run()
	r := &result{stdout: stdout.String(), stderr: stderr.String()}
	var exit *exec.ExitError
	switch {
	case ctx.Err() != nil:
		r.status = statusTooLong
	case errors.As(err, &exit):
		r.status = exit.ExitCode()
	case err != nil:
		return nil, fmt.Errorf("%s cannot be run: %w", program, err)
	}
	return r, nil
}

// filesIn reads all files below a folder.
func filesIn(folder string) (map[string]string, error) {
	files := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(folder, path)
		files[filepath.ToSlash(name)] = string(text)
		return err
	})
	return files, err
}

var (
	stamp     = regexp.MustCompile(`\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)`)
	stamped   = regexp.MustCompile(`(?m)^(.*,NOW,.*,)[a-p]{8}(\r?)$`)
	nowMasked = "NOW"
)

// mask takes the time of the run out of a result, and the checks of the journal's rows
// that hang on it. Other times stay.
func (r *result) mask(began, ended time.Time) {
	began = began.Truncate(time.Second)
	cover := func(text string) string {
		out := stamp.ReplaceAllStringFunc(text, func(s string) string {
			at, err := time.Parse(time.RFC3339, s)
			if err != nil || at.Before(began) || at.After(ended) {
				return s
			}
			return nowMasked
		})
		return stamped.ReplaceAllString(out, "${1}CHECK$2")
	}
	r.stdout, r.stderr = cover(r.stdout), cover(r.stderr)
	for name, text := range r.files {
		r.files[name] = cover(text)
	}
}

// answersOf are the answers in the key of a drill.
func answersOf(key string) []string {
	var d struct {
		Tables struct {
			Answers []struct{ Answer struct{ Value any } }
		}
	}
	if json.Unmarshal([]byte(key), &d) != nil {
		return nil
	}
	var out []string
	for _, a := range d.Tables.Answers {
		out = append(out, fmt.Sprint(a.Answer.Value))
	}
	return out
}
