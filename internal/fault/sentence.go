package fault

import (
	"fmt"

	"brineyard/internal/quantity"
)

// Sentence puts quantities into a format in a system of units.
func Sentence(format string, args []quantity.Quantity, sys quantity.System) string {
	shown := make([]any, len(args))
	for i, a := range args {
		shown[i] = a.In(sys)
	}
	return fmt.Sprintf(format, shown...)
}

// Word is a name in a sentence of quantities.
type Word string

// In shows the word.
func (w Word) In(quantity.System) quantity.Shown { return quantity.Shown{Words: string(w)} }
