package fault

import (
	"sort"
)

// ListedValves joins names for a message.
func ListedValves(names []string) string {
	if len(names) == 0 {
		return "none; the plumbing has no valves"
	}
	sorted := append([]string(nil), names...)
	sort.Strings(sorted)
	text := ""
	for i, n := range sorted {
		if i > 0 {
			text += ", "
		}
		text += n
	}
	return text
}
