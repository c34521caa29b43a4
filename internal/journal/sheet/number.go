package sheet

import (
	"errors"
	"fmt"
	"strings"

	"brineyard/internal/words"
)

// number reads the cell of a number.
//
// In a sheet with commas between its cells a point is the decimal mark, and commas may set
// off thousands: 1,750 is 1750, and 23,3 is refused.
//
// In a sheet with semicolons or tabs between its cells either mark may be the decimal one:
//
//   - one mark without three digits behind it is a decimal mark: 23,3 and 23.3, 0,25;
//   - of two different marks the last is the decimal one: 1.750,5 and 1,750.5 are 1750.5;
//   - a mark that comes again sets off thousands: 1.234.567;
//   - one mark with three digits behind it could be either: 1.750 is 1750 or 1.75. It is
//     taken for the one that the column can hold (a strength of 1,750 is 1.75%, since none is
//     1750%; a reading of 1.178 is no 1178), and refused as unclear if the column can hold
//     both. 0,750 has no thousands, and is clear.
func number[Q ~float64](c cell, parse parser[Q]) (q Q, bare bool, err error) {
	n := c.meanings()
	q, bare, err = parse(c.withUnit(n.text(n.decimal)))
	if n.thousand != "" {
		whole, wholeBare, wholeErr := parse(c.withUnit(n.text(n.thousand)))
		switch {
		case err != nil:
			q, bare, err = whole, wholeBare, wholeErr
		case wholeErr == nil:
			return 0, false, fmt.Errorf("%s is unclear: %s or %s; allowed: no mark of thousands, and not three decimals: %s or %s0",
				words.Quoted(c.text), n.thousand, n.decimal, n.thousand, n.digits)
		}
	}
	if err != nil {
		return 0, false, errors.New(words.Quoted(c.text) + ": " + err.Error())
	}
	return q, bare, nil
}

// meanings are what a cell with a number may stand for.
type meanings struct {
	head, digits, tail string // the parts of the cell
	decimal            string // the digits with a point as decimal mark and no other
	thousand           string // the same if the only mark sets off thousands; empty if it cannot
}

// text is the cell with other digits.
func (n meanings) text(digits string) string { return n.head + digits + n.tail }

// withUnit gives a number that stands alone its unit.
func (c cell) withUnit(text string) string {
	if text != "" && strings.IndexByte("0123456789.", text[len(text)-1]) >= 0 {
		return text + c.unit
	}
	return text
}

// meanings reads the cell of a number. The digits of what is none stay as they are.
func (c cell) meanings() meanings {
	start := strings.IndexAny(c.text, "0123456789.,")
	if start < 0 || strings.Trim(c.text[:start], "+-$ ") != "" {
		return meanings{head: c.text}
	}
	end := start
	for end < len(c.text) && strings.IndexByte("0123456789.,", c.text[end]) >= 0 {
		end++
	}
	n := meanings{head: c.text[:start], digits: c.text[start:end], tail: c.text[end:]}
	if c.in.decimalComma {
		n.decimal, n.thousand = eitherMark(n.digits)
		return n
	}
	n.decimal = n.digits
	if whole, fraction, _ := strings.Cut(n.digits, "."); grouped(whole, ",") && !strings.ContainsAny(fraction, ".,") {
		n.decimal = strings.ReplaceAll(n.digits, ",", "")
	}
	return n
}

// eitherMark reads digits of which a point or a comma may be the decimal mark. Digits that
// are well formed in neither way stay as they are.
func eitherMark(digits string) (decimal, thousand string) {
	at := strings.LastIndexAny(digits, ".,")
	if at < 0 {
		return digits, ""
	}
	mark, whole, fraction := digits[at:at+1], digits[:at], digits[at+1:]
	other := "."
	if mark == "." {
		other = ","
	}
	switch {
	case strings.Contains(whole, mark): // comes again, or the digits are broken
		if grouped(digits, mark) {
			return strings.ReplaceAll(digits, mark, ""), ""
		}
		return digits, ""
	case strings.Contains(whole, other):
		if !grouped(whole, other) {
			return digits, ""
		}
		return strings.ReplaceAll(whole, other, "") + "." + fraction, ""
	case grouped(digits, mark) && whole[0] != '0':
		return whole + "." + fraction, whole + fraction
	}
	return whole + "." + fraction, ""
}

// grouped tells whether a mark sets off groups of three digits.
func grouped(digits, mark string) bool {
	groups := strings.Split(digits, mark)
	if len(groups) < 2 || len(groups[0]) < 1 || len(groups[0]) > 3 {
		return false
	}
	for i, g := range groups {
		if i > 0 && len(g) != 3 || strings.Trim(g, "0123456789") != "" {
			return false
		}
	}
	return true
}
