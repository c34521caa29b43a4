package cli

import (
	"fmt"

	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// origin is where a value of a request came from, put into words only when an error
// needs them.
type origin struct {
	words      string // as they are; the rest is empty then
	flag, text string // the flag, and what it was given
	path, key  string // the yard file and its key
	value      quantity.Quantity
}

// said is an origin in so many words.
func said(words string) origin { return origin{words: words} }

// place names an origin in a message.
func (s *setting) place(o origin) string {
	switch {
	case o.words != "":
		return o.words
	case o.path != "":
		return fmt.Sprintf("%s: %s = %q", o.path, o.key, o.value.In(s.system))
	case o.value != nil:
		return fmt.Sprintf("--%s (default %v)", o.flag, o.value.In(s.system))
	}
	return "--" + o.flag + " " + words.Quoted(o.text)
}
