package cold

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
)

// standVerdict says what has become of the liquid.
func standVerdict(v show.View, r brine.FreezeRequest, st brine.Stand, first solution.Onset) string {
	above := quantity.Difference(float64(r.At) - first.Temperature)
	pump := pumping(st)
	switch {
	case st.Liquid == 0:
		return v.Say("At %v it is solid through: %s.", r.At, pump)
	case !changed(st) && first.Found && above < brine.NightMargin:
		return v.Say("At %v it is still liquid, but %s forms only %v below: that is no margin.", r.At, show.SolidKind(first.Solid), above)
	case !changed(st):
		return v.Say("At %v it is clear liquid: %s.", r.At, pump)
	case r.Volume == 0:
		return v.Say("At %v it is %v liquid, %v ice and %v salt crystals by weight; %s.", r.At, st.Liquid, st.Ice, st.Salt, pump)
	case st.Ice == 0:
		return v.Say("At %v about %v of salt crystals lie on the floor of the tank of %v; %s.", r.At, st.SaltMass, r.Volume, pump)
	case st.Salt > 0:
		return v.Say("At %v there are about %v of ice and %v of salt crystals in the tank of %v; %s.", r.At, st.IceMass, st.SaltMass, r.Volume, pump)
	}
	return v.Say("At %v there are about %v of ice in the tank of %v; %s.", r.At, st.IceMass, r.Volume, pump)
}

// pumping says whether the pump still draws it.
func pumping(st brine.Stand) string {
	switch {
	case !st.Pumpable:
		return "it cannot be pumped"
	case st.Salt > 0:
		return "the liquid above them can still be pumped"
	}
	return "it can still be pumped"
}

// changed reports whether anything solid has formed.
func changed(st brine.Stand) bool { return st.Ice > 0 || st.Salt > 0 }

func standFigures(v show.View, r brine.FreezeRequest, st brine.Stand) []report.Figure {
	figures := []report.Figure{
		v.Figure("liquid_fraction", v.Say("Liquid at %v", r.At), st.Liquid),
		v.Figure("ice_fraction", v.Say("Ice at %v", r.At), st.Ice),
		v.Figure("salt_solid_fraction", v.Say("Salt crystals at %v", r.At), st.Salt),
		{Key: "pumpable", Label: v.Say("Pumpable at %v", r.At), Value: report.Word(show.YesNo(st.Pumpable))},
	}
	if st.Liquid > 0 && changed(st) {
		left := quantity.Strength(st.Left.Composition.Solute())
		figures = append(figures, show.Quiet(v.Figure("liquid_strength", "Salt in the liquid left", left)))
	}
	known := r.Volume > 0
	return append(figures,
		solidMass(v, "ice_mass", "Ice in the tank", st.IceMass, known, st.Ice),
		solidMass(v, "salt_solid_mass", "Salt crystals in the tank", st.SaltMass, known, st.Salt),
		solidMass(v, "dry_salt_mass", "of which salt without its water", st.DrySalt, known, st.Salt))
}

// solidMass is the mass of a solid, which needs a known volume; it is shown where some of
// that solid has formed.
func solidMass(v show.View, key, label string, m quantity.Mass, known bool, x quantity.Fraction) report.Figure {
	f := v.Figure(key, label, m)
	if !known {
		f.Value = report.Nothing(f.Value.Unit, "no volume given")
	}
	return show.QuietUnless(known && x > 0, f)
}

func standNotes(v show.View, st brine.Stand) []string {
	var notes []string
	if st.Liquid > 0 && changed(st) {
		notes = append(notes, v.Say("The liquid that is left holds %s.", v.CompositionText(st.Left)))
	}
	for _, solid := range solution.Solids() {
		if x, ok := st.Crystals[solid]; ok {
			notes = append(notes, v.Say("%v by weight is %s.", x, show.SolidName(solid)))
		}
	}
	if changed(st) {
		notes = append(notes, v.Say("Counted as pumpable up to %v of ice by weight (common practice, no source); crystals can block a filter long before.",
			quantity.Fraction(brine.MostIce)))
	}
	return notes
}

// standCautions go with a tank in which something solid stands.
func standCautions(st brine.Stand) []string {
	switch {
	case !changed(st):
		return nil
	case st.Liquid > 0:
		return []string{show.CautionPump, show.CautionEntry, show.CautionLocal}
	}
	return []string{show.CautionEntry, show.CautionLocal}
}
