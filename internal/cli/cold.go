package cli

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
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

// standVerdict says what has become of the liquid.
func standVerdict(s *setting, r brine.FreezeRequest, f brine.FreezeResult) string {
	st := f.Stand
	pump := "it can still be pumped"
	switch {
	case !st.Pumpable:
		pump = "it cannot be pumped"
	case st.Salt > 0:
		pump = "the liquid above them can still be pumped"
	}
	switch {
	case st.Liquid == 0:
		return s.show("At %v it is solid through: %s.", r.At, pump)
	case st.Ice == 0 && st.Salt == 0:
		return s.show("At %v it is clear liquid: %s.", r.At, pump)
	case r.Volume > 0 && st.Salt > 0 && st.Ice == 0:
		return s.show("At %v about %v of salt crystals lie on the floor of the tank of %v; %s.", r.At, st.SaltMass, r.Volume, pump)
	case r.Volume > 0 && st.Salt > 0:
		return s.show("At %v there are about %v of ice and %v of salt crystals in the tank of %v; %s.", r.At, st.IceMass, st.SaltMass, r.Volume, pump)
	case r.Volume > 0:
		return s.show("At %v there are about %v of ice in the tank of %v; %s.", r.At, st.IceMass, r.Volume, pump)
	}
	return s.show("At %v it is %v liquid, %v ice and %v salt crystals by weight; %s.", r.At, st.Liquid, st.Ice, st.Salt, pump)
}

// addStand adds what the liquid has become.
func (s *setting) addStand(d *report.Document, r brine.FreezeRequest, f brine.FreezeResult) {
	st := f.Stand
	pumpable := "no"
	if st.Pumpable {
		pumpable = "yes"
	}
	d.Figures = append(d.Figures,
		s.figure("liquid_fraction", s.show("Liquid at %v", r.At), st.Liquid),
		s.figure("ice_fraction", s.show("Ice at %v", r.At), st.Ice),
		s.figure("salt_solid_fraction", s.show("Salt crystals at %v", r.At), st.Salt),
		report.Figure{Key: "pumpable", Label: s.show("Pumpable at %v", r.At), Value: report.Word(pumpable)})
	changed := st.Ice > 0 || st.Salt > 0
	if st.Liquid > 0 && changed {
		d.Figures = append(d.Figures, quiet(s.figure("liquid_strength", "Salt in the liquid left", quantity.Strength(st.Left.Composition.Solute()))))
		d.Notes = append(d.Notes, s.show("The liquid that is left holds %s.", s.compositionText(st.Left)))
	}
	known := r.Volume > 0
	d.Figures = append(d.Figures,
		quietUnless(known && st.Ice > 0, s.massOrNothing("ice_mass", "Ice in the tank", st.IceMass, known)),
		quietUnless(known && st.Salt > 0, s.massOrNothing("salt_solid_mass", "Salt crystals in the tank", st.SaltMass, known)),
		quietUnless(known && st.Salt > 0, s.massOrNothing("dry_salt_mass", "of which salt without its water", st.DrySalt, known)))
	for _, solid := range solution.Solids() {
		if x, ok := st.Crystals[solid]; ok {
			d.Notes = append(d.Notes, s.show("%v by weight is %s.", x, solidName(solid)))
		}
	}
	if !changed {
		return
	}
	d.Notes = append(d.Notes, s.show("Counted as pumpable up to %v of ice by weight (common practice, no source); crystals can block a filter long before.",
		quantity.Fraction(brine.MostIce)))
	if st.Liquid > 0 {
		d.Cautions = append(d.Cautions, cautionPump)
	}
	d.Cautions = append(d.Cautions, cautionEntry, cautionLocal)
}

// massOrNothing is a mass that hangs on a volume.
func (s *setting) massOrNothing(key, label string, m quantity.Mass, known bool) report.Figure {
	f := s.figure(key, label, m)
	if !known {
		f.Value = report.Nothing(f.Value.Unit, "no volume given")
	}
	return f
}

// meltVerdict says how much ice a gallon melts.
func meltVerdict(s *setting, r brine.FreezeRequest, f brine.FreezeResult) string {
	if f.Melt.Dilution == 0 {
		return s.show("On pavement at %v it melts nothing: it would freeze there itself.", r.Pavement)
	}
	return s.show("On pavement at %v it melts %v of ice before it refreezes there, diluted to %v.",
		r.Pavement, f.Melt.PerVolume, f.Melt.Diluted)
}

// addMelt adds what it melts.
func (s *setting) addMelt(d *report.Document, r brine.FreezeRequest, f brine.FreezeResult) {
	d.Figures = append(d.Figures,
		s.figure("ice_melted_per_volume", s.show("Ice melted at %v", r.Pavement), f.Melt.PerVolume),
		s.figure("melt_dilution", "Melt water taken up, by weight of liquid", f.Melt.Dilution),
		s.figure("diluted_strength", "Refreezes when diluted to", f.Melt.Diluted))
	d.Notes = append(d.Notes, "Melting is reckoned to the end, with no heat but that of the pavement; on a road it is slower and part of it runs off.")
}

// addCurve adds the freezing diagram.
func (s *setting) addCurve(d *report.Document, r brine.FreezeRequest, f brine.FreezeResult) {
	t := report.Table{
		Key:   "curve",
		Title: "Freezing diagram, at this ratio of salts",
		Columns: []report.Column{
			{Key: "strength", Label: "Strength"}, {Key: "ice_point", Label: "Ice point"},
			{Key: "salt_out_temp", Label: "Salt out"}, {Key: "first_solid", Label: "First"}, {Key: "this_liquid", Label: ""},
		},
	}
	for _, p := range f.Curve {
		t.Rows = append(t.Rows, s.curveRow(p))
	}
	d.Tables = append(d.Tables, t)
	d.Charts = append(d.Charts, s.freezingChart(f.Curve))
}

// curveRow is a row of the diagram's table.
func (s *setting) curveRow(p brine.CurvePoint) []report.Value {
	mark := ""
	if p.IsLiquid {
		mark = "this liquid"
	}
	name := "none"
	if first := p.Cold.First(); first.Found {
		name = solidKind(first.Solid)
	}
	at := func(o solution.Onset) report.Value {
		v := s.onset("", "", o).Value
		switch {
		case o.Saturated:
			v = report.Nothing(v.Unit, "above "+temperatureOf(o).In(s.system).String())
		case o.Found:
			v.Text = temperatureOf(o).In(s.system).String()
		default:
			v.Text = "-"
		}
		return v
	}
	return []report.Value{s.value(p.Strength), at(p.Cold.Ice), at(p.Cold.Salt), report.Word(name), report.Word(mark)}
}
