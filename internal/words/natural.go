package words

import (
	"cmp"
	"slices"
	"strings"
)

// Natural returns names in the order in which a person looks for them: V2 before V10.
func Natural(names []string) []string {
	sorted := slices.Clone(names)
	slices.SortStableFunc(sorted, compareNatural)
	return sorted
}

// compareNatural compares texts by their runs of digits as numbers, and by their other runes as
// they are. Leading zeros count where nothing else tells two apart.
func compareNatural(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		m, n := digits(x), digits(y)
		if m > 0 && n > 0 {
			u, v := strings.TrimLeft(x[:m], "0"), strings.TrimLeft(y[:n], "0")
			if c := cmp.Or(cmp.Compare(len(u), len(v)), cmp.Compare(u, v)); c != 0 {
				return c
			}
			x, y = x[m:], y[n:]
			continue
		}
		if x[0] != y[0] {
			return cmp.Compare(x[0], y[0])
		}
		x, y = x[1:], y[1:]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

// digits is the length of the run of digits that a text begins with.
func digits(text string) int {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	return n
}
