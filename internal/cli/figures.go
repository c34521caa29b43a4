package cli

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// value shows a quantity in the user's units.
func (s *setting) value(q quantity.Quantity) report.Value {
	shown := q.In(s.system)
	if math.IsNaN(shown.Value) || math.IsInf(shown.Value, 0) {
		return report.Nothing(shown.Unit, "none")
	}
	if s.bare {
		return report.Number(shown.Value, shown.Unit, "")
	}
	return report.Number(shown.Value, shown.Unit, shown.String())
}

// figure is a labelled quantity.
func (s *setting) figure(key, label string, q quantity.Quantity) report.Figure {
	return report.Figure{Key: key, Label: label, Value: s.value(q)}
}

// quiet marks figures that only programs are shown.
func quiet(f report.Figure) report.Figure {
	f.Quiet = true
	return f
}

// quietUnless marks a figure that is of interest on one condition.
func quietUnless(interesting bool, f report.Figure) report.Figure {
	f.Quiet = !interesting
	return f
}

// known is a figure that may not be known; then it is for programs alone.
func known[Q quantity.Quantity](s *setting, key, label string, q *Q) report.Figure {
	if q == nil {
		var none Q
		return quiet(report.Figure{Key: key, Label: label, Value: report.Nothing(none.In(s.system).Unit, "not known")})
	}
	return s.figure(key, label, *q)
}

// solidName names a solid for people who do not know its mineral.
func solidName(s solution.Solid) string {
	if s == solution.Ice {
		return "ice"
	}
	return "salt crystals (" + s.String() + ", " + s.Formula() + ")"
}

// onset shows when a solid forms.
func (s *setting) onset(key, label string, o solution.Onset) report.Figure {
	if !o.Found {
		floor := quantity.Temperature(solution.Floor).In(s.system)
		return report.Figure{Key: key, Label: label, Value: report.Nothing(floor.Unit, "none down to "+floor.String())}
	}
	f := s.figure(key, label, quantity.Temperature(o.Temperature))
	if o.Solid != solution.Ice {
		f.Value.Text += ", " + solidName(o.Solid)
	}
	return f
}

// freezing lists the figures of what a solution does in the cold.
func (s *setting) freezing(f solution.Freezing) []report.Figure {
	first := f.First()
	at := s.onset("first_solid_temp", "First solid", first)
	if first.Found && first.Solid == solution.Ice {
		at.Value.Text += ", ice"
	}
	name := ""
	if first.Found {
		name = first.Solid.String()
	}
	return []report.Figure{
		at,
		quiet(report.Figure{Key: "first_solid", Label: "Name of the first solid", Value: report.Word(name)}),
		s.onset("ice_point", "Ice point", f.Ice),
		s.onset("salt_out_temp", saltLabel(first), f.Salt),
	}
}

// saltLabel says of the salt-out temperature that it counts no ice, where ice comes
// first: what freezes out concentrates the rest, and salt then falls out sooner.
func saltLabel(first solution.Onset) string {
	if first.Found && first.Solid == solution.Ice {
		return "Salt out, ice left aside"
	}
	return "Salt falls out below"
}

// temperatureOf shows an onset's temperature in a sentence.
func temperatureOf(o solution.Onset) quantity.Temperature { return quantity.Temperature(o.Temperature) }
