package report

import (
	"unicode"

	eastasian "golang.org/x/text/width"
)

// width is how many columns of a terminal a text takes.
func width(text string) int {
	n := 0
	for _, r := range text {
		n += runeWidth(r)
	}
	return n
}

// runeWidth is 2 for the wide characters of East Asian scripts, and 0 for marks that stand
// above or below another (Unicode Standard Annex 11).
func runeWidth(r rune) int {
	switch {
	case r < 0x300:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	}
	switch eastasian.LookupRune(r).Kind() {
	case eastasian.EastAsianWide, eastasian.EastAsianFullwidth:
		return 2
	}
	return 1
}
