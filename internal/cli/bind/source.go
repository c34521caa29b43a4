package bind

import (
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Source is where a value comes from when it was not typed; false when it has none. The name
// is the flag's.
type Source[Q quantity.Quantity] func(name string, s *Scope) (Q, Place, bool)

// Key takes a value from the yard file; zero is not said there.
func Key[Q interface {
	comparable
	quantity.Quantity
}](key string, get func(*yard.Yard) Q) Source[Q] {
	return func(_ string, s *Scope) (q Q, place Place, found bool) {
		if s.Yard == nil {
			return q, place, false
		}
		var zero Q
		q = get(s.Yard)
		return q, Place{path: s.Yard.Path, key: key, value: q}, q != zero
	}
}

// KeyIfAny is Key for a value that can be zero, and is nil when it is not said.
func KeyIfAny[Q quantity.Quantity](key string, get func(*yard.Yard) *Q) Source[Q] {
	return func(_ string, s *Scope) (q Q, place Place, found bool) {
		if s.Yard == nil {
			return q, place, false
		}
		if p := get(s.Yard); p != nil {
			return *p, Place{path: s.Yard.Path, key: key, value: *p}, true
		}
		return q, place, false
	}
}

// KeyNamed is Key for a key that depends on typed words, like that of a tank by name.
func KeyNamed[Q interface {
	comparable
	quantity.Quantity
}](key func() string, get func() Q) Source[Q] {
	return func(_ string, s *Scope) (q Q, place Place, found bool) {
		var zero Q
		if q = get(); s.Yard == nil || q == zero {
			return q, place, false
		}
		return q, Place{path: s.Yard.Path, key: key(), value: q}, true
	}
}

// InFile takes a value from another file than the yard's, nil when it does not say.
func InFile[Q quantity.Quantity](path func() string, get func() *Q) Source[Q] {
	return func(name string, _ *Scope) (q Q, place Place, found bool) {
		if p := get(); p != nil {
			return *p, Place{words: path() + ": " + name}, true
		}
		return q, place, false
	}
}

// Default takes a value that stands for all yards.
func Default[Q quantity.Quantity](q Q) Source[Q] { return DefaultOf(func() Q { return q }) }

// DefaultOf is Default for a value that depends on others, bound before it.
func DefaultOf[Q quantity.Quantity](get func() Q) Source[Q] {
	return func(name string, s *Scope) (Q, Place, bool) {
		q := get()
		if q.In(s.System).Value == 0 {
			return q, Place{words: "--" + name}, true // nothing was typed, and nothing is taken
		}
		return q, Place{flag: name, value: q}, true
	}
}

// InWords takes zero, and names the place in words.
func InWords[Q quantity.Quantity](words string) Source[Q] {
	return func(string, *Scope) (q Q, place Place, found bool) { return q, Place{words: words}, true }
}
