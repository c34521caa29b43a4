package cold

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// curveTable is the freezing diagram in numbers.
func curveTable(v show.View, curve []brine.CurvePoint) report.Table {
	t := report.Table{
		Key:   "curve",
		Title: "Freezing diagram, at this ratio of salts",
		Columns: []report.Column{
			{Key: "strength", Label: "Strength"}, {Key: "ice_point", Label: "Ice point"},
			{Key: "salt_out_temp", Label: "Salt out"}, {Key: "first_solid", Label: "First"}, {Key: "this_liquid", Label: ""},
		},
	}
	for _, p := range curve {
		t.Rows = append(t.Rows, curveRow(v, p))
	}
	return t
}

func curveRow(v show.View, p brine.CurvePoint) []report.Value {
	mark, name := "", "none"
	if p.IsLiquid {
		mark = "this liquid"
	}
	switch first := p.Cold.First(); {
	case p.Meets:
		name = "both"
	case first.Found:
		name = show.SolidKind(first.Solid)
	}
	strength := v.Value(p.Strength)
	if p.Meets { // no finer than the others
		strength.Text = quantity.Fixed(*strength.Number, 1) + strength.Unit
	}
	return []report.Value{strength, onCurve(v, p.Cold.Ice), onCurve(v, p.Cold.Salt), report.Word(name), report.Word(mark)}
}

// onCurve is when a solid forms, without its name. A solution that is saturated at every
// temperature has its solid from the top of the search down.
func onCurve(v show.View, o solution.Onset) report.Value {
	at := v.Value(show.TemperatureOf(o))
	switch {
	case o.Saturated:
		return report.Nothing(at.Unit, "above "+at.Text)
	case !o.Found:
		return report.Nothing(at.Unit, "-")
	}
	return at
}
