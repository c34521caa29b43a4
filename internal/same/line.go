package main

import (
	"slices"
	"strconv"
	"strings"
)

// line is a command line with all that it meets: the files of its folder, its
// environment and its standard input.
type line struct {
	number  int
	command string // as the tally names it
	words   []string
	env     []string // variables that are set on purpose
	input   string
	// key is a line whose answers, by the old program, are typed into this one; nil for
	// most.
	key   []string
	files map[string]string // text by path
}

// String is the line as it is typed.
func (l *line) String() string {
	words := slices.Concat(l.env, []string{"brineyard"}, l.words)
	for i, w := range words {
		words[i] = shellWord(w)
	}
	return strings.Join(words, " ")
}

// shellWord quotes a word where a shell needs it.
func shellWord(w string) string {
	plain := strings.Trim(w, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_=./:,@%+") == ""
	switch {
	case plain && w != "":
		return w
	case strings.ContainsFunc(w, func(r rune) bool { return !strconv.IsPrint(r) }):
		return "$" + "'" + strings.ReplaceAll(strings.Trim(strconv.QuoteToASCII(w), `"`), "'", `\'`) + "'"
	}
	return "'" + strings.ReplaceAll(w, "'", `'\''`) + "'"
}

// flag is the value that stands last behind a flag, if there is one.
func (l *line) flag(name string) (string, bool) {
	value, found := "", false
	for i, w := range l.words {
		if v, ok := strings.CutPrefix(w, "--"+name+"="); ok {
			value, found = v, true
		} else if w == "--"+name && i+1 < len(l.words) {
			value, found = l.words[i+1], true
		}
	}
	return value, found
}

// format is the form of answer that the line asks for.
func (l *line) format() string {
	if f, ok := l.flag("format"); ok {
		return strings.ToLower(f)
	}
	return "text"
}
