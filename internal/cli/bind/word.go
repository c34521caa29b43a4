package bind

import (
	"fmt"
	"strconv"
	"strings"

	"brineyard/internal/fault"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// Text is a flag that takes a name.
type Text struct {
	to    *string
	given bool
	names func(*yard.Yard) []string
}

// Name binds a name, which is not to be empty. Names lists those of the yard file that a
// shell may complete it with; nil for none.
func Name(b *Set, to *string, name, usage string, names func(*yard.Yard) []string) *Text {
	t := &Text{to: to, names: names}
	b.flags.Var(t, name, usage)
	if names != nil {
		b.Then(t.asYardSpells)
	}
	return t
}

// asYardSpells takes the name as the yard file spells it.
func (t *Text) asYardSpells(s *Scope) error {
	if s.Yard == nil || !t.given {
		return nil
	}
	if name, ok := words.Match(*t.to, t.names(s.Yard)); ok {
		*t.to = name
	}
	return nil
}

// Given reports whether a name was typed.
func (t *Text) Given() bool { return t.given }

// Quoted shows the name that was typed.
func (t *Text) Quoted() string { return words.Quoted(*t.to) }

// OfYard reports whether the names are those of the yard file.
func (t *Text) OfYard() bool { return t.names != nil }

// Names lists the names in a yard that the flag takes, where it takes those.
func (t *Text) Names(y *yard.Yard) []string { return t.names(y) }

// Set takes the name.
func (t *Text) Set(text string) error {
	if strings.TrimSpace(text) == "" {
		return fault.Refuse("no name; allowed: a name")
	}
	if t.given {
		return twice(*t.to, text)
	}
	*t.to, t.given = text, true
	return nil
}

// Reset takes back what was typed.
func (t *Text) Reset() { *t.to, t.given = "", false }

// String returns the name in force.
func (t *Text) String() string {
	if t.to == nil {
		return ""
	}
	return *t.to
}

// Type names the kind of value in help.
func (t *Text) Type() string { return "name" }

// Option is a word that can be chosen, and what it stands for.
type Option[T any] struct {
	Word  string
	Means T
}

// Choice is a flag that takes one of a few words.
type Choice[T any] struct {
	to      *T
	options []Option[T]
	word    string
	initial string
	given   bool
}

// OneOf binds a choice; initial is the word in force until one is typed, or empty.
func OneOf[T any](b *Set, to *T, name, usage, initial string, options ...Option[T]) *Choice[T] {
	c := &Choice[T]{to: to, options: options, word: initial, initial: initial}
	c.Reset()
	b.flags.Var(c, name, usage)
	return c
}

// Words makes options that stand for themselves.
func Words(list ...string) []Option[string] {
	var options []Option[string]
	for _, w := range list {
		options = append(options, Option[string]{w, w})
	}
	return options
}

// Given reports whether a word was typed.
func (c *Choice[T]) Given() bool { return c.given }

// Options lists the words.
func (c *Choice[T]) Options() []string {
	var list []string
	for _, o := range c.options {
		list = append(list, o.Word)
	}
	return list
}

// Set takes one of the words.
func (c *Choice[T]) Set(text string) error {
	if c.given {
		return twice(c.word, text)
	}
	for _, o := range c.options {
		if strings.EqualFold(text, o.Word) {
			*c.to, c.word, c.given = o.Means, o.Word, true
			return nil
		}
	}
	return fault.Refuse("no such choice; %s", words.Allowed(text, c.Options()))
}

// Reset takes back what was typed.
func (c *Choice[T]) Reset() {
	var none T
	*c.to, c.word, c.given = none, c.initial, false
	for _, o := range c.options {
		if o.Word == c.initial {
			*c.to = o.Means
		}
	}
}

// String returns the word in force.
func (c *Choice[T]) String() string { return c.word }

// Type names the kind of value in help.
func (c *Choice[T]) Type() string { return "word" }

// Whole is a flag that takes a whole number from 1 to 1000.
type Whole struct {
	to      *int
	initial int
	what    string
	given   bool
}

// Count binds a whole number. Its present value, 0 for none, stays until one is typed; what
// names the counted thing in a refusal.
func Count(b *Set, to *int, name, usage, what string) *Whole {
	w := &Whole{to: to, initial: *to, what: what}
	b.flags.Var(w, name, usage)
	return w
}

// Set reads the number.
func (w *Whole) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n == 0 || n > 1000 {
		return fault.Refuse("not a %s; allowed: 1 to 1000", w.what)
	}
	if w.given {
		return twice(w.String(), text)
	}
	*w.to, w.given = int(n), true
	return nil
}

// Reset takes back what was typed.
func (w *Whole) Reset() { *w.to, w.given = w.initial, false }

// String returns the number in force.
func (w *Whole) String() string {
	if w.to == nil || *w.to == 0 {
		return ""
	}
	return strconv.Itoa(*w.to)
}

// Type names the kind of value in help.
func (w *Whole) Type() string { return "number" }

// Toggle is a flag that is there or not.
type Toggle struct{ to *bool }

// Switch binds a flag without a value.
func Switch(b *Set, to *bool, name, usage string) {
	f := b.flags.VarPF(&Toggle{to}, name, "", usage)
	f.NoOptDefVal = "true"
}

// Set reads what stands behind the flag, if anything.
func (t *Toggle) Set(text string) error {
	on, err := strconv.ParseBool(text)
	if err != nil {
		return fmt.Errorf("takes no value")
	}
	*t.to = on
	return nil
}

// Reset takes back the flag.
func (t *Toggle) Reset() { *t.to = false }

// String tells whether it is there.
func (t *Toggle) String() string { return strconv.FormatBool(t.to != nil && *t.to) }

// Type is that of a flag without a value.
func (t *Toggle) Type() string { return "bool" }

// IsBoolFlag lets the flag stand alone.
func (t *Toggle) IsBoolFlag() bool { return true }
