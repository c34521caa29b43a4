package journal

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"brineyard/internal/words"
)

// decimals is the finest that a number is written to. It keeps what rounding leaves
// of a temperature near zero out of the file.
const decimals = 11

// numberText writes a number with 12 significant digits, without exponent where a
// reader can do without.
func numberText(x float64) string {
	if math.Abs(x) >= 1e15 || math.IsNaN(x) {
		return strconv.FormatFloat(x, 'g', 12, 64)
	}
	places := decimals
	if x != 0 {
		places = min(decimals, 11-int(math.Floor(math.Log10(math.Abs(x)))))
	}
	text := strconv.FormatFloat(x, 'f', max(0, places), 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// Number reads a number of digits, sign, point and exponent, and nothing else
// that Go would take for one.
func Number(text string) (float64, error) {
	for i := range len(text) {
		if c := text[i]; (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return 0, fmt.Errorf("%s is no number; allowed: one like 1095 or -6.1", words.Quoted(text))
		}
	}
	x, err := strconv.ParseFloat(text, 64)
	switch {
	case errors.Is(err, strconv.ErrRange):
		return 0, fmt.Errorf("%s is too large for a number", words.Quoted(text))
	case err != nil:
		return 0, fmt.Errorf("%s is no number; allowed: one like 1095 or -6.1", words.Quoted(text))
	}
	return x, nil
}

// MostEntries bounds entry numbers, so that a damaged one is not taken for one.
const MostEntries = math.MaxInt32

// EntryNumber reads the number of an entry.
func EntryNumber(text string) (int, error) {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n == 0 || text[0] == '+' {
		return 0, fmt.Errorf("%s is no entry number; allowed: 1 to %d", words.Quoted(text), MostEntries)
	}
	return int(n), nil
}
