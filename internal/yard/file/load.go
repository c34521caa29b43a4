// Package file reads the yard file and storm files. They are TOML; quantities are written
// as on the command line. All faults of a file are reported, each with its place.
package file

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"unicode/utf8"

	"brineyard/internal/words"
	"brineyard/internal/yard"

	"github.com/BurntSushi/toml"
)

// Error is a fault in a yard file, at a line and column when they are known.
type Error struct {
	Path         string
	Line, Column int // from 1; 0 when the fault has no place
	Message      string
}

func (e *Error) Error() string {
	if e.Line == 0 {
		return fmt.Sprintf("%s: %s", e.Path, e.Message)
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.Path, e.Line, e.Column, e.Message)
}

// Faults are all faults of a file, in its order; as an error, the first and how
// many there are besides.
type Faults []*Error

func (f Faults) Error() string {
	if len(f) == 1 {
		return f[0].Error()
	}
	return fmt.Sprintf("%v (and %d more: brineyard yard check lists them)", f[0], len(f)-1)
}

// Unwrap gives the first fault.
func (f Faults) Unwrap() error { return f[0] }

// most is the size in bytes beyond which a file is no yard file.
const most = 1 << 20

// Load reads and checks the yard file at path in a file system. Errors: Faults.
func Load(open func(string) (fs.File, error), path string) (*yard.Yard, error) {
	text, err := readFile(open, path, "a yard file")
	if err != nil {
		return nil, err
	}
	return Parse(path, text)
}

// readFile reads a file whole; kind names it in messages. Errors: Faults.
func readFile(open func(string) (fs.File, error), path, kind string) ([]byte, error) {
	f, err := open(path)
	if err != nil {
		return nil, whole(path, reason(err)+"; allowed: the path of "+kind)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && !info.Mode().IsRegular() {
		return nil, whole(path, "not a file; allowed: the path of "+kind)
	}
	text, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, whole(path, reason(err))
	}
	if len(text) > most {
		return nil, whole(path, "too large for "+kind+"; allowed: up to 1 MiB")
	}
	return text, nil
}

// whole is a fault of the file as such.
func whole(path, message string) error { return Faults{{Path: path, Message: message}} }

// reason is the cause of a failed opening, without the path again.
func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// Parse reads and checks the text of a yard file; path is for messages. Errors:
// Faults.
func Parse(path string, text []byte) (*yard.Yard, error) {
	r, values, err := decode(path, text)
	if err != nil {
		return nil, err
	}
	y := r.read(values)
	y.Path = path
	if err := r.verdict(); err != nil {
		return nil, err
	}
	return y, nil
}

// syntaxFault gives the parser's error a line, a column and one line.
func syntaxFault(path string, text []byte, err error) error {
	var syntax toml.ParseError
	if !errors.As(err, &syntax) {
		return whole(path, words.OneLine(err.Error()))
	}
	line, column := position(text, syntax.Position.Start)
	return Faults{{path, line, column, words.OneLine(syntax.Message)}}
}

// position turns an offset into line and column, both from 1.
func position(text []byte, offset int) (line, column int) {
	offset = max(0, min(offset, len(text)))
	for offset > 0 && offset < len(text) && !utf8.RuneStart(text[offset]) {
		offset--
	}
	before := text[:offset]
	line = 1 + bytes.Count(before, []byte("\n"))
	column = 1 + utf8.RuneCount(before[bytes.LastIndexByte(before, '\n')+1:])
	return line, column
}

// decode parses the TOML of a file into values, or gives its error a place. Errors:
// Faults.
func decode(path string, text []byte) (*reader, map[string]any, error) {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if !utf8.Valid(text) {
		return nil, nil, whole(path, "not UTF-8 text")
	}
	values := map[string]any{}
	if _, err := toml.Decode(string(text), &values); err != nil {
		return nil, nil, syntaxFault(path, text, err)
	}
	return &reader{path: path, text: string(text)}, values, nil
}

// verdict returns the faults found, in the order of the file.
func (r *reader) verdict() error {
	if len(r.faults) == 0 {
		return nil
	}
	r.faults.sort()
	return r.faults
}
