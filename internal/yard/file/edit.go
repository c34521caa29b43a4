package file

import (
	"fmt"
	"regexp"
	"strings"
)

// Setting is a key with the text that is to stand behind its equals sign.
type Setting struct{ Key, Text string }

// value is what stands behind an equals sign on one line, with the comment after it apart.
var value = regexp.MustCompile(`^(\s*[A-Za-z0-9_\-"']+\s*=\s*)("(?:[^"\\]|\\.)*"|'[^']*'|[^#"'\s\[{][^#"'\[{]*?)(\s*(?:#.*)?\r?)$`)

// Edit sets keys of a table of a yard file, the index-th of a list, and leaves every other line as it is, with its
// comments. A key that is not there comes after the last of the table. Errors: a table that is written in
// another way than under a head of its own, or a value on several lines.
func Edit(text, table string, index int, settings []Setting) (string, error) {
	lines := strings.Split(text, "\n")
	for _, s := range settings {
		at, last := 0, 0
		for _, p := range locate(strings.Join(lines, "\n")).keys {
			if p.table != table || p.index != index {
				continue
			}
			last = p.line
			if p.key == s.Key {
				at = p.line
			}
		}
		switch {
		case last == 0:
			return "", fmt.Errorf("[%s] has no lines of its own there; allowed: with them, or %s written in by hand", table, s.Key)
		case at == 0:
			end := ""
			if strings.HasSuffix(lines[last-1], "\r") {
				end = "\r"
			}
			lines = append(lines[:last], append([]string{s.Key + " = " + s.Text + end}, lines[last:]...)...)
		case !value.MatchString(lines[at-1]):
			return "", fmt.Errorf("line %d has another value than one on its line; allowed: %s written in by hand", at, s.Key)
		default:
			lines[at-1] = value.ReplaceAllString(lines[at-1], "${1}"+strings.ReplaceAll(s.Text, "$", "$$")+"${3}")
		}
	}
	return strings.Join(lines, "\n"), nil
}
