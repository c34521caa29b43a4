package words

import "strings"

// plain are the runes that a shell leaves alone, besides letters and digits of ASCII.
const plain = "-_.,:/@%+="

// Argument is a word as it is typed in a shell: in single quotes where a shell would take it
// apart or change it.
func Argument(text string) string {
	bare := func(r rune) bool {
		return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune(plain, r)
	}
	if text != "" && strings.IndexFunc(text, func(r rune) bool { return !bare(r) }) < 0 {
		return text
	}
	return "'" + strings.ReplaceAll(text, "'", `'\''`) + "'"
}
