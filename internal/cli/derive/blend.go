package derive

import (
	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/working"
	"strings"
)

// Blend balances the weights of the parts.
func Blend(v show.View, r brine.BlendRequest, b brine.Blend) []report.Step {
	p := begin(v)
	weights := make([]working.Term, len(r.Parts))
	for i, part := range r.Parts {
		amount := working.Number(part.Amount, "")
		name := v.Describe(part.Liquid)
		if r.ByWeight {
			weights[i] = p.Read("Parts by weight of "+name, "as given", amount)
		} else {
			rho, err := part.Liquid.Density(r.Temperature)
			if err != nil {
				return nil
			}
			density := working.Number(p.Density(rho).Value(), "")
			p.Read("Density of "+name, v.Say("at %v, %s", r.Temperature, p.Density(rho).Unit()), density)
			weights[i] = p.Step("Weight of its share", "parts x density", "", amount, density)
		}
	}
	total := p.StepAs("Weight of all", "sum of the weights", strings.TrimPrefix(strings.Repeat(" + {}", len(weights)), " + "), "", weights...)
	for _, salt := range balance.Salts() {
		p.saltInBlend(r, salt, weights, total)
	}
	if r.Volume > 0 {
		p.amounts(r, b, weights, total)
	}
	return p.Steps()
}

// amounts are the volumes that make the blend asked for.
func (p sheet) amounts(r brine.BlendRequest, b brine.Blend, weights []working.Term, total working.Term) {
	density := p.Read("Density of the blend", p.Say("at %v, Laliberte (2009) for its salts", r.Temperature), p.Density(b.Density))
	whole := p.weigh("Weight of the blend", p.Of(r.Volume), density)
	for i, part := range r.Parts {
		rho, err := part.Liquid.Density(r.Temperature)
		if err != nil {
			return
		}
		own := p.Density(rho)
		p.Step("To meter of "+p.Describe(part.Liquid), "weight of the blend x its weight / weight of all / its density", p.VolumeUnit(), whole, weights[i], total, own)
	}
}

// saltInBlend works out the strength of one salt.
func (p sheet) saltInBlend(r brine.BlendRequest, salt solution.Salt, weights []working.Term, total working.Term) {
	text, terms := "", []working.Term(nil)
	for i, part := range r.Parts {
		w := part.Liquid.Composition.Fraction(salt)
		if w == 0 {
			continue
		}
		share := working.Number(w, "")
		if text != "" {
			text += " + "
		}
		text += "{} x {}"
		terms = append(terms, weights[i], share)
	}
	if text == "" {
		return
	}
	mass := p.StepAs(salt.String()+" in it", "weight of each part x its strength, summed", text, "", terms...)
	p.Step("Strength in "+salt.String(), "100 x salt / weight of all", "%", mass, total)
}
