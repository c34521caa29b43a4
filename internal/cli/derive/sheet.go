// Package derive writes the working of each answer. A step is worked out from the numbers
// printed in it; what is looked up, in a density table or the chemical model, says where.
package derive

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/working"
)

// sheet is a working with the user's view beside it.
type sheet struct {
	*working.Sheet
	show.View
}

func begin(v show.View) sheet { return sheet{working.New(v.System), v} }

// weigh adds the step from a volume to its weight.
func (p sheet) weigh(what string, volume, density working.Term) working.Term {
	return p.Step(what, "volume x density", p.MassUnit(), volume, density)
}
