// Package fault says what of a request is refused: which field, why, and what is allowed,
// with the limits that every calculator shares.
package fault

import (
	"brineyard/internal/quantity"
)

// InputError is a request that cannot be answered. Reason is a format with a %v
// for each of Args, so that quantities can be shown in the user's units; it says
// what is wrong and what is allowed.
type InputError struct {
	Field  string
	Reason string
	Args   []quantity.Quantity
}

// Error returns the refusal in US units.
func (e *InputError) Error() string {
	return e.Field + ": " + Sentence(e.Reason, e.Args, quantity.US)
}

// Input returns an InputError: reason is a format for args.
func Input(field, reason string, args ...quantity.Quantity) error {
	return &InputError{Field: field, Reason: reason, Args: args}
}

// If returns the refusal where a rule is broken, and nil where it is kept, so that the
// rules of a request stand as a list: the first of them that is broken is cmp.Or's.
func If(broken bool, field, reason string, args ...quantity.Quantity) error {
	if !broken {
		return nil
	}
	return Input(field, reason, args...)
}

// Relabel gives an input error the name of another field.
func Relabel(err error, field string) error {
	if input, ok := err.(*InputError); ok {
		input.Field = field
	}
	return err
}
