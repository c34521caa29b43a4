// Package bind gives a request its values. Each value is declared once: its kind, where it
// goes, its flag, and the sources that stand in when nothing was typed. The list of sources
// is the precedence, and the place that an error names comes with the value.
package bind

import (
	"cmp"
	"errors"
	"io/fs"
	"time"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/spf13/pflag"
)

// Set is what one command binds, in the order in which it is filled and refused.
type Set struct {
	flags  *pflag.FlagSet
	steps  []step
	places map[string]Place // by the field of the request
	said   []string         // flags that were filled without being typed
}

// step fills one value, or checks what was filled before it.
type step func(*Scope) error

// Scope is what values are taken from besides the flags.
type Scope struct {
	Yard *yard.Yard // nil when there is none
	// Stands tells the yard as it stands; nil where only the file is to be asked.
	Stands func() (*yard.Yard, error)
	System quantity.System
	Now    func() time.Time
	Open   func(string) (fs.File, error)
	Args   []string // words without a flag
	Notes  []string // how the words were read; Fill adds to them
	Quiet  bool     // nobody reads notes
	failed error    // of what could not be learned
}

// New begins a set whose flags go to a command's.
func New(flags *pflag.FlagSet) *Set { return &Set{flags: flags, places: map[string]Place{}} }

// Flags returns the flags that were bound.
func (b *Set) Flags() *pflag.FlagSet { return b.flags }

// Fill gives every value of the request what was typed, else what its sources say. Errors:
// Refusal.
func (b *Set) Fill(s *Scope) error {
	clear(b.places)
	for _, fill := range b.steps {
		if err := cmp.Or(fill(s), s.failed); err != nil {
			return b.Explain(err, s.System)
		}
	}
	return nil
}

// Then adds a rule that is checked once everything bound before it has its value.
func (b *Set) Then(rule func(*Scope) error) { b.steps = append(b.steps, rule) }

// Says gives a field of the request a place in words, where no flag of that name holds it.
func (b *Set) Says(field, words string) {
	b.Then(func(*Scope) error { b.places[field] = Place{words: words}; return nil })
}

// SaysOf is Says for words that depend on typed ones.
func (b *Set) SaysOf(field string, words func() string) {
	b.Then(func(*Scope) error { b.places[field] = Place{words: words()}; return nil })
}

// Place names where a field of the request came from.
func (b *Set) Place(field string, system quantity.System) string {
	if p, known := b.places[field]; known {
		return p.in(system)
	}
	return "--" + field
}

// Explain turns a calculator's InputError into a refusal that names the flag, or the key of
// the yard file, with its quantities in the user's units. Other errors stay as they are.
func (b *Set) Explain(err error, system quantity.System) error {
	var input *fault.InputError
	if !errors.As(err, &input) {
		return err
	}
	return fault.Refuse("%s: %s", b.Place(input.Field, system), fault.Sentence(input.Reason, input.Args, system))
}

// Resettable is a flag's value that can be as if it had not been typed.
type Resettable interface{ Reset() }
