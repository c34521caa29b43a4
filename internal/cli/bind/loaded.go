package bind

import (
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Loaded is a weight of salt that is typed as such, or in buckets of the yard's loader.
type Loaded struct {
	name, text string
	given      bool
}

// BindLoaded binds a weight of salt. Without the flag it is 0.
func BindLoaded(b *Set, to *quantity.Mass, name, usage string) *Loaded {
	l := &Loaded{name: name}
	b.flags.Var(l, name, usage+" (lb or kg if no unit; 2buckets by the yard file)")
	b.Then(func(s *Scope) (err error) {
		*to = 0
		if l.given {
			*to, err = l.mass(s)
			b.places[name] = Place{flag: name, text: l.text}
		}
		return err
	})
	return l
}

// bucketWords are how buckets are typed.
var bucketWords = []string{"buckets", "bucket"}

// mass is what was typed.
func (l *Loaded) mass(s *Scope) (quantity.Mass, error) {
	number, buckets := l.buckets()
	if !buckets {
		m, _, err := quantity.Meant(quantity.ParseMass, s.System, l.text)
		if err != nil {
			return 0, fault.Refuse("--%s %s: %v", l.name, words.Quoted(l.text), err)
		}
		return m, nil
	}
	bucket := quantity.Mass(0)
	if s.Yard != nil {
		bucket = s.Yard.Pile.Bucket
	}
	if bucket == 0 {
		return 0, fault.Refuse("--%s %s: the yard file does not say what a bucket holds; allowed: a weight, or salt.bucket in the file", l.name, words.Quoted(l.text))
	}
	n, _, err := quantity.ParseMoney(quantity.Plain(number)) // a plain number
	if err != nil {
		return 0, fault.Refuse("--%s %s: not a number of buckets; allowed: like 2buckets", l.name, words.Quoted(l.text))
	}
	return bucket * quantity.Mass(n), nil
}

// buckets is the number in front of the word; false where a weight was typed.
func (l *Loaded) buckets() (number string, found bool) {
	for _, w := range bucketWords {
		if number, found = strings.CutSuffix(strings.ToLower(strings.TrimSpace(l.text)), w); found {
			return strings.TrimSpace(number), true
		}
	}
	return "", false
}

// Given reports whether it was typed.
func (l *Loaded) Given() bool { return l.given }

// Set takes the text.
func (l *Loaded) Set(text string) error {
	if l.given {
		return twice(l.text, text)
	}
	l.text, l.given = text, true
	return nil
}

// Reset takes back what was typed.
func (l *Loaded) Reset() { l.text, l.given = "", false }

// String returns the words typed.
func (l *Loaded) String() string { return l.text }

// Type names the kind of value in help.
func (l *Loaded) Type() string { return "weight" }
