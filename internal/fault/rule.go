package fault

import "brineyard/internal/quantity"

// Rule is a thing that a request must not be.
type Rule struct {
	bad    bool
	field  string
	reason string // a format for args
	args   []quantity.Quantity
}

// When returns the rule that refuses a field where bad holds. Reason is a format for args:
// what is wrong, and what is allowed.
func When(bad bool, field, reason string, args ...quantity.Quantity) Rule {
	return Rule{bad, field, reason, args}
}

// First refuses a request for the first of the rules that it breaks.
func First(rules ...Rule) error {
	for _, r := range rules {
		if r.bad {
			return Input(r.field, r.reason, r.args...)
		}
	}
	return nil
}
