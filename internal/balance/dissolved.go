package balance

import (
	"errors"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Dissolves refuses a liquid that is no solution, or that drops salt at 40 C.
func (l Liquid) Dissolves() (Cold, error) {
	return l.DissolvesAt(quantity.Temperature(solution.SearchTop))
}

// DissolvesAt refuses a liquid that is no solution, or that drops salt at a temperature.
func (l Liquid) DissolvesAt(t quantity.Temperature) (Cold, error) {
	cold, err := l.Cold()
	if errors.Is(err, solution.ErrComposition) {
		return cold, fault.Input(fault.FieldParts, "more salt dissolved in %v than the model covers; allowed: %v in all",
			fault.Word(l.Name), quantity.Strength(solution.MaxSolute))
	}
	if err != nil {
		return cold, err
	}
	return cold, l.CheckDissolved(cold, t)
}

// CheckDissolved refuses a liquid whose cold is known, where it drops salt at a temperature.
func (l Liquid) CheckDissolved(cold Cold, t quantity.Temperature) error {
	drops := cold.Salt.Saturated || cold.Salt.Found && cold.Salt.Temperature > float64(t)+AlreadySolid
	return fault.If(drops, fault.FieldParts,
		"not all of %v stays dissolved at %v; allowed: less salt, or warmer", fault.Word(l.Name), t)
}
