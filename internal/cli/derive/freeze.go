package derive

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/working"
)

// Freeze shows the arithmetic behind what was asked.
func Freeze(v show.View, r brine.FreezeRequest, f brine.FreezeResult) []report.Step {
	p := begin(v)
	if c := r.Liquid.Composition; !f.Cold.Estimated && c.Solute() > 0 && f.Cold.Ice.Found {
		p.iceSteps(c, f)
	}
	if first := f.Cold.First(); first.Found && first.Solid != solution.Ice {
		p.Read("Where salt falls out", "Pitzer model and solubility products, by trial in temperature", p.Of(show.TemperatureOf(first)))
	}
	p.standSteps(r, f)
	p.meltSteps(r, f)
	return p.Steps()
}

// standSteps turn fractions at equilibrium into weights in the tank.
func (p sheet) standSteps(r brine.FreezeRequest, f brine.FreezeResult) {
	if !f.Stands || r.Volume == 0 || f.Stand.Ice == 0 && f.Stand.Salt == 0 {
		return // all stays liquid
	}
	volume := p.Of(r.Volume)
	density := p.Read(p.Say("Density at %v", r.StoredAt), "Laliberte (2009)", p.Density(f.Density))
	weight := p.weigh("Weight of what is in the tank", volume, density)
	for _, part := range []struct {
		name string
		x    quantity.Fraction
	}{{"Ice", f.Stand.Ice}, {"Salt crystals", f.Stand.Salt}} {
		if part.x == 0 {
			continue
		}
		share := p.Read(p.Say("%s at %v, part of the weight", part.name, r.At), "equilibrium of liquid, ice and salts (least Gibbs energy)", working.Number(float64(part.x), ""))
		p.Step(part.name+" in the tank", "weight x part", weight.Unit(), weight, share)
	}
}

// meltSteps dilute the liquid to what freezes on the pavement.
func (p sheet) meltSteps(r brine.FreezeRequest, f brine.FreezeResult) {
	if !f.Melts || f.Melt.Dilution == 0 {
		return
	}
	whole := quantity.Strength(r.Liquid.Composition.Solute())
	strength := working.ShareBeside(whole, f.Melt.Diluted)
	diluted := p.Read(p.Say("Strength, at this ratio of salts, that freezes at %v", r.Pavement), "Pitzer model, by trial in strength", working.ShareBeside(f.Melt.Diluted, whole))
	water := p.Step("Melt water that a unit weight takes up", "strength / diluted strength - 1", "", strength, diluted)
	density := p.Density(f.Density)
	unit := density.Unit()
	p.Step("Ice melted by a unit volume", "melt water x density", unit, water, density)
}

// iceSteps show how the ice point follows from the molalities.
func (p sheet) iceSteps(c solution.Composition, f brine.FreezeResult) {
	text, terms := "1", []working.Term(nil)
	for _, salt := range balance.Salts() {
		if w := c.Fraction(salt); w > 0 {
			text, terms = text+" - {}", append(terms, working.Number(w, ""))
		}
	}
	water := p.StepAs("Water in one kg of the liquid, kg", "1 - all salt", text, "", terms...)
	all := p.ions(c, water)
	osmotic := p.Read(p.Say("Osmotic coefficient at the ice point, %v", show.TemperatureOf(f.Cold.Ice)),
		"Pitzer model, Toner and Catling (2017); found by trial until the last step is even", working.Number(f.Osmotic, ""))
	perMol := working.Number(solution.MolarMassWater, "")
	p.Step("Logarithm of the water activity", "-osmotic coefficient x ions x kg in a mol of water", "", osmotic, all, perMol)
	p.Read("Logarithm of the activity of ice at that temperature", "from its own table, log K of ice; equal, so water and ice are in balance", working.Number(f.Ice, ""))
}

// ions adds up mol of ions per kg of water.
func (p sheet) ions(c solution.Composition, water working.Term) working.Term {
	text, terms := "", []working.Term(nil)
	for _, salt := range balance.Salts() {
		k := salt
		w := c.Fraction(k)
		if w == 0 {
			continue
		}
		share, molar := working.Number(w, ""), working.Number(1e3*k.MolarMass(), "")
		m := p.Step(k.String()+" per kg of water, mol", "1000 x salt / (molar mass x water)", "", share, molar, water)
		perSalt := working.Number(k.Ions(), "")
		if text != "" {
			text += " + "
		}
		text += "{} x {}"
		terms = append(terms, perSalt, m)
	}
	return p.StepAs("Ions per kg of water, mol", "ions in the salt x its mol, summed", text, "", terms...)
}
