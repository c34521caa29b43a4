package journal

import (
	"fmt"

	"brineyard/internal/words"
)

// Kinds lists the kinds of entries.
func Kinds() []Kind { return append(EventKinds(), Undo, Accept) }

// EventKinds lists the kinds of entries that stand for themselves: those that are not about
// another entry.
func EventKinds() []Kind {
	return []Kind{Batch, Reading, Correction, Transfer, Load, Unload, Delivery, Order, Spill, Sale, Loan, Gift, Clean, Rinse, Count, Work, Note}
}

// AboutAnother reports whether an entry of the kind is about another entry.
func (k Kind) AboutAnother() bool { return k == Undo || k == Accept }

// KindNamed finds the kind of a name among those that are allowed.
func KindNamed(name string, allowed []Kind) (Kind, error) {
	for _, k := range allowed {
		if name == string(k) {
			return k, nil
		}
	}
	return "", fmt.Errorf("%s is no kind of event; allowed: %s", words.Quoted(name), words.Joined(allowed, "none"))
}
