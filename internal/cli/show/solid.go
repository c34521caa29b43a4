package show

import (
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// SolidName names a solid for people who do not know its mineral.
func SolidName(s solution.Solid) string {
	if s == solution.Ice {
		return "ice"
	}
	return "salt crystals (" + s.String() + ", " + s.Formula() + ")"
}

// SolidKind is ice or salt.
func SolidKind(s solution.Solid) string {
	if s == solution.Ice {
		return "ice"
	}
	return "salt"
}

// RangeNote tells that an answer lies outside the range of a fit.
func (v View) RangeNote(l solution.FitRange) string {
	of := ""
	if l.Salt != solution.AllSalts {
		of = " of " + l.Salt.String()
	}
	if l.Strength > 0 {
		return v.Say("Outside what is checked: the %s model%s goes up to %v dissolved.", l.Property, of, quantity.Strength(l.Strength))
	}
	return v.Say("Outside what is checked: the %s model%s holds from %v to %v.", l.Property, of,
		quantity.Temperature(l.Low), quantity.Temperature(l.High))
}

// Onset shows when a solid forms.
func (v View) Onset(key, label string, o solution.Onset) report.Figure {
	if !o.Found {
		floor := quantity.Temperature(solution.Floor).In(v.System)
		return report.Figure{Key: key, Label: label, Value: report.Nothing(floor.Unit, "none down to "+floor.String())}
	}
	f := v.Figure(key, label, quantity.Temperature(o.Temperature))
	if o.Solid != solution.Ice && !v.NumbersOnly {
		name := SolidName(o.Solid)
		if v.Short {
			name = SolidKind(o.Solid)
		}
		f.Value.Text += ", " + name
	}
	return f
}

// Freezing lists the figures of what a solution does in the cold.
func (v View) Freezing(f solution.Freezing) []report.Figure {
	first := f.First()
	at := v.Onset("first_solid_temp", "First solid", first)
	if first.Found && first.Solid == solution.Ice && !v.NumbersOnly {
		at.Value.Text += ", ice"
	}
	name := ""
	if first.Found {
		name = first.Solid.String()
	}
	ice, salt := v.Onset("ice_point", "Ice point", f.Ice), v.Onset("salt_out_temp", saltLabel(first), f.Salt)
	// One of them is the first solid once more.
	ice.Detail = first.Found && first.Solid == solution.Ice
	salt.Detail = first.Found && first.Solid != solution.Ice
	return []report.Figure{
		at,
		Quiet(report.Figure{Key: "first_solid", Label: "Name of the first solid", Value: report.Word(name)}),
		ice, salt,
	}
}

// saltLabel says of the salt-out temperature that it counts no ice, where ice comes
// first: ice that freezes out concentrates the rest, and salt then falls out sooner.
func saltLabel(first solution.Onset) string {
	if first.Found && first.Solid == solution.Ice {
		return "Salt out, if no ice forms"
	}
	return "Salt falls out below"
}

// TemperatureOf shows an onset's temperature in a sentence.
func TemperatureOf(o solution.Onset) quantity.Temperature { return quantity.Temperature(o.Temperature) }

// ShortSolid is when a solid forms, and whether it is ice or salt; or how far down none
// is known.
func (v View) ShortSolid(o solution.Onset) report.Value {
	if !o.Found {
		none := "none"
		if o.Temperature > solution.Floor {
			none = v.Say("none to %v", TemperatureOf(o))
		}
		return report.Nothing(quantity.Temperature(0).In(v.System).Unit, none)
	}
	at := v.Value(TemperatureOf(o))
	at.Text = v.Say("%v %s", TemperatureOf(o), SolidKind(o.Solid))
	return at
}
