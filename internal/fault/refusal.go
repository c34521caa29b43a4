package fault

import "fmt"

// Refusal is input that is wrong, in words for the user: what was given, where, and what is
// allowed.
type Refusal struct{ message string }

// Error returns the words.
func (r *Refusal) Error() string { return r.message }

// Refuse makes a Refusal.
func Refuse(format string, args ...any) error { return &Refusal{fmt.Sprintf(format, args...)} }
