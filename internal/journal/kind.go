package journal

import (
	"fmt"
	"strings"
)

// Kinds lists the kinds of events.
func Kinds() []Kind {
	return []Kind{Batch, Reading, Correction, Transfer, Load, Delivery, Clean, Count, Note, Undo}
}

// kindNamed finds the kind of a name among those that are allowed.
func kindNamed(name string, allowed []Kind) (Kind, error) {
	for _, k := range allowed {
		if name == string(k) {
			return k, nil
		}
	}
	names := make([]string, len(allowed))
	for i, k := range allowed {
		names[i] = string(k)
	}
	return "", fmt.Errorf("%s is no kind of event; allowed: %s", quoted(name), strings.Join(names, ", "))
}

// quoted shows what a file holds in a message, shortened and safe on a terminal.
func quoted(text string) string {
	const most = 40
	if r := []rune(text); len(r) > most {
		text = string(r[:most]) + "..."
	}
	return fmt.Sprintf("%q", text)
}
