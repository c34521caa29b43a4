package words

import (
	"slices"
	"strings"
)

// Allowed lists the known words in a sentence, and begins with the one that was probably
// meant.
func Allowed(word string, known []string) string {
	allowed := "allowed: " + Joined(known, "none; the file has none")
	if near, ok := Nearest(word, known); ok {
		return "did you mean " + near + "? " + allowed
	}
	return allowed
}

// Nearest returns the known word that a user probably meant: the only one that begins with
// the typed one (of two letters at least), else the one with the fewest slips, up to one for
// every three letters typed. The case of letters does not count, and the first of equals is
// taken. A word that is known means itself, so nothing is returned for it.
func Nearest(word string, known []string) (string, bool) {
	if slices.Contains(known, word) {
		return "", false
	}
	if only, ok := onlyBeginning(word, known); ok {
		return only, true
	}
	near, ok := "", false
	fewest := len([]rune(word))/3 + 1
	for _, k := range known {
		if n := slips(word, k, fewest-1); n < fewest {
			near, fewest, ok = k, n, true
		}
	}
	return near, ok
}

// onlyBeginning returns the one known word that begins with the word.
func onlyBeginning(word string, known []string) (only string, ok bool) {
	if len([]rune(word)) < 2 {
		return "", false
	}
	for _, k := range known {
		if !strings.HasPrefix(strings.ToLower(k), strings.ToLower(word)) {
			continue
		}
		if ok && k != only {
			return "", false
		}
		only, ok = k, true
	}
	return only, ok
}

// OneSlip reports whether two words differ by one slip at most.
func OneSlip(a, b string) bool { return slips(a, b, 1) <= 1 }

// slips counts the letters to insert, drop, change or swap with their neighbour, whatever
// their case, to make one word of another (Damerau and Levenshtein, each letter moved once).
// A count above most is not exact.
func slips(a, b string, most int) int {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if apart := max(len(x)-len(y), len(y)-len(x)); apart > most {
		return apart // at least that many letters differ
	}
	before, row := make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		next := make([]int, len(y)+1)
		next[0] = i + 1
		for j := range y {
			next[j+1] = min(row[j+1]+1, next[j]+1, row[j]+cost(x[i] != y[j]))
			if i > 0 && j > 0 && x[i] == y[j-1] && x[i-1] == y[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return row[len(y)]
}

// cost is one slip, or none.
func cost(slip bool) int {
	if slip {
		return 1
	}
	return 0
}
