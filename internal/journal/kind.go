package journal

import (
	"fmt"

	"brineyard/internal/words"
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
	return "", fmt.Errorf("%s is no kind of event; allowed: %s", words.Quoted(name), words.Joined(allowed, "none"))
}
