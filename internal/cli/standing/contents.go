package standing

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/state"
)

// contents are the strength in salt of what stands somewhere, and what its liquid is called.
func contents(v show.View, s *state.Stock) (salt, of report.Value) {
	switch {
	case s.Mass == 0:
		return report.Nothing("%", "-"), report.Word("empty")
	case !s.Sure:
		return report.Nothing("%", "?"), report.Word("not sure")
	}
	name := s.Liquid.Name
	if _, plain := s.Liquid.Strength(); !plain {
		name = v.CompositionText(s.Liquid)
	}
	return v.Value(quantity.Strength(s.Liquid.Composition.NaCl)), report.Word(name)
}
