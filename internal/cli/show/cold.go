package show

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// ColdVerdict names the first solid, and the other side where it comes later.
func (v View) ColdVerdict(c balance.Cold) string {
	first, ice := c.First(), c.Ice
	switch {
	case c.Beyond:
		return v.Say("By the data sheet no ice down to %v, where its table ends; this is an estimate.", TemperatureOf(ice))
	case c.Estimated:
		return v.Say("Ice forms at about %v (%s): an estimate from the data sheet.", TemperatureOf(ice), v.estimated(c))
	case !first.Found:
		return v.Say("Stays clear down to %v, where the model ends.", quantity.Temperature(solution.Floor))
	case first.Solid == solution.Ice:
		return v.Say("Ice forms first, at %v.", TemperatureOf(first))
	case !ice.Found:
		return v.Say("Salt falls out first, at %v%s%s.", TemperatureOf(first), v.disputed(c), v.mineral(first.Solid))
	}
	const close = 1.5 // K within which it makes no difference to a tank
	if first.Temperature-ice.Temperature < close {
		return v.Say("Salt falls out first, at %v%s%s; ice follows at %v.",
			TemperatureOf(first), v.disputed(c), v.mineral(first.Solid), TemperatureOf(ice))
	}
	return v.Say("Salt falls out first, at %v%s%s; ice would follow at %v.",
		TemperatureOf(first), v.disputed(c), v.mineral(first.Solid), TemperatureOf(ice))
}

// mineral names behind a colon what falls out, where names are wanted.
func (v View) mineral(s solution.Solid) string {
	if v.Short {
		return ""
	}
	return ": " + SolidName(s)
}

// disputed says behind a temperature, in brackets, what other published data have; nothing where they agree.
func (v View) disputed(c balance.Cold) string {
	if !c.Disputed() || !c.SaltLow.Found {
		return ""
	}
	return v.Say(" (%v by other published data)", TemperatureOf(c.SaltLow))
}

// Cold lists the figures of what a liquid does on cooling, with the ranges where published data disagree.
func (v View) Cold(c balance.Cold) []report.Figure {
	figures := v.Freezing(c.Freezing)
	ends := []report.Figure{
		Quiet(v.Onset("salt_out_temp_low", "Salt out, cold side", c.SaltLow)),
		Quiet(v.Onset("salt_out_temp_high", "Salt out, warm side", c.Salt)),
		Quiet(v.iceBound("ice_point_low", "Ice point, cold side", c, c.IceLow)),
		Quiet(v.iceBound("ice_point_high", "Ice point, warm side", c, c.IceHigh)),
	}
	if !c.Estimated {
		return append(figures, ends...)
	}
	for i := range figures {
		f := &figures[i]
		switch {
		case f.Key == "salt_out_temp":
			f.Value = report.Nothing(f.Value.Unit, "not known with a product in it")
		case c.Beyond && f.Key != "first_solid":
			f.Value = report.Nothing(f.Value.Unit, v.Say("none down to %v", TemperatureOf(c.Ice)))
		case f.Key == "ice_point":
			f.Value.Text += v.Say(" (%v)", v.estimated(c))
		}
	}
	ends[0].Value, ends[1].Value = report.Nothing(ends[0].Value.Unit, "not known"), report.Nothing(ends[0].Value.Unit, "not known")
	return append(figures, ends...)
}

// iceBound is one side of the ice point.
func (v View) iceBound(key, label string, c balance.Cold, kelvin float64) report.Figure {
	if !c.Ice.Found {
		return v.Onset(key, label, c.Ice)
	}
	return v.Figure(key, label, quantity.Temperature(kelvin))
}

// estimated is between which temperatures an estimated ice point lies.
func (v View) estimated(c balance.Cold) string {
	half := quantity.Difference((c.IceHigh - c.IceLow) / 2)
	return v.Range(quantity.Temperature(c.IceLow), quantity.Temperature(c.IceHigh), half)
}

// ColdNotes say what the figures rest on, and what they mean for a tank.
func (v View) ColdNotes(c balance.Cold) []string {
	if c.Estimated {
		return []string{"Estimate: products go by their freezing tables (Zdanovskii-Stokes-Robinson rule); " +
			"try a sample in a freezer before relying on it. Where salt falls out is not known."}
	}
	var notes []string
	if c.Salt.Found && c.Salt == c.First() {
		notes = append(notes, "Salt that falls out settles on the tank floor and in the filter; what stays liquid is weaker than what was stored.")
	}
	if c.Disputed() {
		notes = append(notes, v.disputeNote(c))
	}
	return notes
}

// disputeNote tells that published data disagree on where salt falls out, and what is planned by.
func (v View) disputeNote(c balance.Cold) string {
	cold := v.Say("%v", TemperatureOf(c.SaltLow))
	if !c.SaltLow.Found {
		cold = v.Say("below %v", quantity.Temperature(solution.Floor))
	}
	text := v.Say("Published data disagree on where salt falls out of such a blend: %v or %s, one of them carried on from where it was measured. Plan by the warmer.",
		TemperatureOf(c.Salt), cold)
	if c.Borrowed {
		text += " For magnesium chloride no such data are at hand: the width is that of calcium chloride."
	}
	return text
}

// CalciumNotes tell where the published figures themselves disagree.
func CalciumNotes(l balance.Liquid) []string {
	c := l.Composition
	const disputed = 0.24
	if c.CaCl2 <= disputed || c.CaCl2 < c.Solute()/2 {
		return nil
	}
	return []string{"Above 24% calcium chloride the handbooks differ among themselves by up to 14 C on where it freezes; keep a margin."}
}
