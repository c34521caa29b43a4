package cli

import (
	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// coldVerdict names the first solid, and the other side where it comes later.
func coldVerdict(s *setting, c balance.Cold) string {
	first, ice := c.First(), c.Ice
	switch {
	case c.Beyond:
		return s.show("By the data sheet no ice down to %v, where its table ends; this is an estimate.", temperatureOf(ice))
	case c.Estimated:
		return s.show("Ice forms at about %v: an estimate from the data sheet.", temperatureOf(ice))
	case !first.Found:
		return s.show("Stays clear down to %v, where the model ends.", quantity.Temperature(solution.Floor))
	case first.Solid == solution.Ice:
		return s.show("Ice forms first, at %v.", temperatureOf(first))
	case !ice.Found:
		return s.show("Salt falls out first, at %v: %s.", temperatureOf(first), solidName(first.Solid))
	}
	const close = 1.5 // K within which it makes no difference to a tank
	if first.Temperature-ice.Temperature < close {
		return s.show("Salt falls out first, at %v: %s; ice follows at %v.",
			temperatureOf(first), solidName(first.Solid), temperatureOf(ice))
	}
	return s.show("Salt falls out first, at %v: %s; its ice point of %v is not what the tank meets.",
		temperatureOf(first), solidName(first.Solid), temperatureOf(ice))
}

// cold lists the figures of what a liquid does on cooling.
func (s *setting) cold(c balance.Cold) []report.Figure {
	figures := s.freezing(c.Freezing)
	if !c.Estimated {
		return figures
	}
	for i := range figures {
		f := &figures[i]
		switch {
		case f.Key == "salt_out_temp":
			f.Value = report.Nothing(f.Value.Unit, "not known with a product in it")
		case c.Beyond && f.Key != "first_solid":
			f.Value = report.Nothing(f.Value.Unit, s.show("none down to %v", temperatureOf(c.Ice)))
		}
	}
	return figures
}

// coldNotes say what the figures rest on, and what they mean for a tank.
func (s *setting) coldNotes(c balance.Cold) []string {
	if c.Estimated {
		return []string{"Estimate: products are reckoned by their freezing tables (Zdanovskii-Stokes-Robinson rule); " +
			"try a sample in a freezer before relying on it. Where salt falls out is not known."}
	}
	if c.Salt.Found && c.Salt == c.First() {
		return []string{"Salt that falls out settles on the tank floor and in the filter; what stays liquid is weaker than what was stored."}
	}
	return nil
}

// calciumNotes tell where the published figures themselves disagree.
func calciumNotes(l balance.Liquid) []string {
	c := l.Composition
	const disputed = 0.24
	if c.CaCl2 <= disputed || c.CaCl2 < c.Solute()/2 {
		return nil
	}
	return []string{"Above 24% calcium chloride the handbooks differ among themselves by up to 14 C on where it freezes; keep a margin."}
}
