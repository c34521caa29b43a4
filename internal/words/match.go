package words

import "strings"

// Match finds the known name that a user means: the same name whatever its letters' case, with
// spaces or underlines for hyphens, or the only one that begins so. False where none or more
// than one can be meant.
func Match(name string, known []string) (string, bool) {
	folded := fold(name)
	same, begins := []string{}, []string{}
	for _, k := range known {
		switch {
		case k == name:
			return k, true
		case fold(k) == folded:
			same = append(same, k)
		case folded != "" && strings.HasPrefix(fold(k), folded):
			begins = append(begins, k)
		}
	}
	switch {
	case len(same) == 1:
		return same[0], true
	case len(same) == 0 && len(begins) == 1:
		return begins[0], true
	}
	return "", false
}

// fold leaves what tells names apart.
func fold(name string) string {
	return strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(strings.Join(strings.Fields(name), " ")))
}
