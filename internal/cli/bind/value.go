package bind

import (
	"fmt"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/words"
)

// Value is a quantity of a request, and the flag that types it.
type Value[Q quantity.Quantity] struct {
	name    string
	kind    Kind[Q]
	to      *Q
	typed   Q
	text    string
	more    []string // further texts, of samples
	samples bool     // it may be typed once for each sample
	given   bool
	bare    bool // typed without a unit
	sources []Source[Q]
}

// Of binds a quantity to a flag. Without the flag the value comes from the first source that
// has one; it is zero when none has.
func Of[Q quantity.Quantity](b *Set, kind Kind[Q], to *Q, name, usage string, sources ...Source[Q]) *Value[Q] {
	v := &Value[Q]{name: name, kind: kind, to: to, sources: sources}
	b.flags.Var(v, name, usage+kind.ifBare())
	b.Then(func(s *Scope) error { return v.fill(b, s) })
	return v
}

// Kept binds a quantity that no flag types: it has its sources alone. The name is the field
// of the request.
func Kept[Q quantity.Quantity](b *Set, to *Q, name string, sources ...Source[Q]) {
	v := &Value[Q]{name: name, to: to, sources: sources}
	b.Then(func(s *Scope) error { return v.fill(b, s) })
}

// Optional binds a quantity that is nil unless it was typed.
func Optional[Q quantity.Quantity](b *Set, kind Kind[Q], to **Q, name, usage string) *Value[Q] {
	v := Of(b, kind, new(Q), name, usage)
	b.Then(func(*Scope) error {
		*to = nil
		if v.given {
			*to = &v.typed
		}
		return nil
	})
	return v
}

// fill sets the value and notes its place. A bare number has a unit only now that it is known in
// which ones the user works.
func (v *Value[Q]) fill(b *Set, s *Scope) (err error) {
	if v.given {
		if v.typed, v.bare, err = quantity.Meant(v.kind.Parse, s.System, v.text); err != nil {
			return fault.Refuse("--%s %s: %v", v.name, words.Quoted(v.text), err)
		}
		*v.to = v.typed
		b.typed(s, v.name, v.name, v.text, v.bare, v.typed)
		return nil
	}
	for _, source := range v.sources {
		if q, place, found := source(v.name, s); found {
			*v.to, b.places[v.name] = q, place
			return nil
		}
	}
	var zero Q
	*v.to, b.places[v.name] = zero, Place{words: "--" + v.name}
	return nil
}

// typed notes the place of a typed value. A user who leaves the unit out is told which one was used
// where that makes a value that he may not have meant.
func (b *Set) typed(s *Scope, field, flag, text string, bare bool, q quantity.Quantity) {
	b.places[field] = Place{flag: flag, text: text}
	if !bare {
		return
	}
	odd := false
	switch q := q.(type) {
	case quantity.Temperature:
		odd = s.System == quantity.US && q < quantity.Fahrenheit(20) || q > quantity.Celsius(40)
	case quantity.Strength:
		odd = q > 0 && q < 0.01
	}
	if odd {
		s.Notes = append(s.Notes, fmt.Sprintf("--%s %s has no unit and was read as %v: write the unit if that is not meant.", flag, words.Quoted(text), q.In(s.System)))
	}
}

// OfSamples lets the flag be typed once for each sample.
func (v *Value[Q]) OfSamples() *Value[Q] {
	v.samples = true
	return v
}

// All returns the values of all samples, or the one for all.
func (v *Value[Q]) All(s *Scope) ([]Q, error) {
	all := []Q{*v.to}
	for _, text := range v.more {
		q, _, err := quantity.Meant(v.kind.Parse, s.System, text)
		if err != nil {
			return nil, fault.Refuse("--%s %s: %v", v.name, words.Quoted(text), err)
		}
		all = append(all, q)
	}
	return all, nil
}

// Given reports whether the value was typed.
func (v *Value[Q]) Given() bool { return v.given }

// Typed returns the quantity that was typed.
func (v *Value[Q]) Typed() Q { return v.typed }

// Quoted shows the words that were typed.
func (v *Value[Q]) Quoted() string { return words.Quoted(v.text) }

// NotZero refuses a typed zero; what names the thing that would be missing.
func (v *Value[Q]) NotZero(b *Set, what, allowed string) {
	var zero Q
	b.Then(func(*Scope) error {
		if v.given && any(v.typed) == any(zero) {
			return fault.Refuse("--%s %s: %s; allowed: %s", v.name, v.Quoted(), what, allowed)
		}
		return nil
	})
}

// Set reads the flag's value.
func (v *Value[Q]) Set(text string) error {
	q, bare, err := v.kind.Parse(quantity.Plain(text))
	switch {
	case err != nil:
		return err
	case v.given && v.samples:
		v.more = append(v.more, text)
		return nil
	case v.given:
		return twice(v.text, text)
	}
	v.typed, v.bare, v.text, v.given = q, bare, text, true
	return nil
}

// Reset takes back what was typed.
func (v *Value[Q]) Reset() {
	var none Q
	v.typed, v.text, v.more, v.given, v.bare = none, "", nil, false, false
}

// String returns the words typed.
func (v *Value[Q]) String() string { return v.text }

// Texts are the words typed, one for each sample.
func (v *Value[Q]) Texts() []string { return append([]string{v.text}, v.more...) }

// Type names the kind of value in help.
func (v *Value[Q]) Type() string { return v.kind.Name }
