package file

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

func sortedKeys(m map[string]any) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	return keys
}

// nearest tells whether a word is among the known ones, and else which is like it:
// up to a third of its letters off.
func nearest(word string, known []string) (hint string, found bool) {
	if slices.Contains(known, word) {
		return "", true
	}
	best, at := len(word)/3+1, ""
	for _, k := range known {
		if d := distance(word, k); d < best || d == best && at == "" {
			best, at = d, k
		}
	}
	if at == "" {
		sorted := append([]string(nil), known...)
		sort.Strings(sorted)
		return fmt.Sprintf("; allowed: %s", strings.Join(sorted, ", ")), false
	}
	return fmt.Sprintf("; did you mean %q?", at), false
}

// distance counts the letters to insert, drop or change (Levenshtein).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, diagonal+1)
		}
	}
	return row[len(b)]
}
