package move

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/truck"
)

// carries reports whether the journal says that something is still in the truck's tank.
func (q *loading) carries() bool { return q.truck.Aboard != nil && q.truck.Aboard.Volume > 0 }

// more is what can be loaded beside what the truck still carries.
func (q *loading) more(l truck.Load) quantity.Volume {
	return max(0, l.Volume-q.truck.Aboard.Volume)
}

// aboardFigures tell what the truck still carries, and what can be added.
func (q *loading) aboardFigures(v show.View, l truck.Load) []report.Figure {
	if !q.carries() || !l.Known {
		return nil
	}
	return []report.Figure{
		v.Figure("aboard", "It still carries", q.truck.Aboard.Volume),
		v.Figure("to_load", "so load", q.more(l)),
	}
}

// aboard says the same behind a verdict.
func (q *loading) aboard(v show.View, l truck.Load) string {
	if !q.carries() {
		return ""
	}
	a := q.truck.Aboard
	has := v.Say(" It still carries %v of %s%s", a.Volume, v.Contents(a.Liquid), v.Source(a.Said, q.clock()))
	if !l.Known {
		return has + "."
	}
	return has + v.Say(": load %s more.", v.Inward(q.more(l), -1))
}
