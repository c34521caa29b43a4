package quantity

import (
	"fmt"
	"strings"
)

// Plain returns the text with its number as the parsers take it, for what people write and this program
// prints: groups of three digits that commas or spaces set off are joined (1,750 gal; 1 200 L), and one comma
// that cannot set off a group is the decimal mark (23,3%). Other text stays as it is.
func Plain(text string) string {
	if !strings.ContainsAny(text, ", \u00a0\u202f") {
		return text
	}
	start, end := digitsIn(text)
	if start == end {
		return text
	}
	head, digits, tail := text[:start], text[start:end], text[end:]
	for _, mark := range []string{",", " ", "\u00a0", "\u202f"} {
		points := ".,"
		if mark == "," {
			points = "."
		}
		whole, fraction := digits, ""
		if at := strings.IndexAny(digits, points); at >= 0 {
			whole, fraction = digits[:at], "."+digits[at+1:]
		}
		if inGroups(whole, mark) {
			return head + strings.ReplaceAll(whole, mark, "") + fraction + tail
		}
	}
	if whole, fraction, once := strings.Cut(digits, ","); once && areDigits(whole) && areDigits(fraction) && len(fraction) != groupSize {
		return head + whole + "." + fraction + tail
	}
	return text
}

// Unclear is an error for a number that is two to a crew: 1,750 is 1750 where commas set off groups, and 1.75 where
// the comma is the decimal mark. It is nil for all others.
func Unclear(text string, sys System) error {
	if sys == US || !strings.Contains(text, ",") {
		return nil
	}
	start, end := digitsIn(text)
	whole, fraction, once := strings.Cut(text[start:end], ",")
	if !once || len(fraction) != groupSize || !inGroups(whole+","+fraction, ",") {
		return nil
	}
	return fmt.Errorf("%s,%s is unclear; allowed: %s %s or %s.%s", whole, fraction, whole, fraction, whole, strings.TrimRight(fraction, "0"))
}

// digitsIn finds the number in a text: from its first digit to the last that belongs to it, spaces between
// digits taken along.
func digitsIn(text string) (start, end int) {
	start = strings.IndexAny(text, "0123456789")
	if start < 0 {
		return 0, 0
	}
	end = start
	for i := start; i < len(text); {
		switch r, size := rune(text[i]), 1; {
		case isDigit(text[i]):
			i++
			end = i
		case r == ',' || r == '.' || r == ' ':
			i += size
		case strings.HasPrefix(text[i:], "\u00a0"):
			i += len("\u00a0")
		case strings.HasPrefix(text[i:], "\u202f"):
			i += len("\u202f")
		default:
			return start, end
		}
	}
	return start, end
}

// areDigits reports whether a text is one or more digits and nothing else.
func areDigits(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// groupSize is how many digits stand in a group.
const groupSize = 3

// inGroups reports whether a mark sets off groups of three digits, the first of one to three and not of 0.
func inGroups(digits, mark string) bool {
	groups := strings.Split(digits, mark)
	if len(groups) < 2 || groups[0] == "" || len(groups[0]) > groupSize || groups[0][0] == '0' {
		return false
	}
	for i, g := range groups {
		if !areDigits(g) || i > 0 && len(g) != groupSize {
			return false
		}
	}
	return true
}
