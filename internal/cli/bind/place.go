package bind

import (
	"fmt"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Place is where a value of a request came from, put into words only when an error needs
// them.
type Place struct {
	words      string // as they are; the rest is empty then
	flag, text string // the flag, and what was typed
	path, key  string // the yard file and its key
	value      quantity.Quantity
}

// in words, with the value in a system of units.
func (p Place) in(system quantity.System) string {
	switch {
	case p.words != "":
		return p.words
	case p.path != "":
		return fmt.Sprintf("%s: %s = %q", p.path, p.key, p.value.In(system))
	case p.value != nil:
		return fmt.Sprintf("--%s (default %v)", p.flag, p.value.In(system))
	}
	return "--" + p.flag + " " + words.Quoted(p.text)
}
