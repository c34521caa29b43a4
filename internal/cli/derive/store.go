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

// Store adds up weights and salts of the lots.
func Store(v show.View, r brine.StoreRequest, out brine.StoreResult) []report.Step {
	p := begin(v)
	var weights []working.Term
	salts := map[solution.Salt][]working.Term{}
	for i, lot := range r.Lots {
		weight, ok := p.lotStep(r, i)
		if !ok {
			return nil // of a product only the data sheet is known
		}
		weights = append(weights, weight)
		for _, salt := range balance.Salts() {
			if w := lot.Liquid.Composition.Fraction(salt); w > 0 {
				share := working.Share(quantity.Strength(w))
				salts[salt] = append(salts[salt], p.Step(salt.String()+" in it", "weight x strength", weight.Unit(), weight, share))
			}
		}
	}
	all := p.Sum("Weight of all", "sum", weights...)
	for _, salt := range balance.Salts() {
		if len(salts[salt]) == 0 {
			continue
		}
		dissolved := p.Sum(salt.String()+" in all", "sum", salts[salt]...)
		p.Step("Strength of the mix in "+salt.String(), "100 x salt / weight", "%", dissolved, all)
	}
	end := p.Read("Density of the mix", v.Say("at %v, Laliberte (2009)", r.Temperature), p.Density(out.Density))
	p.Step("Volume of the mix", "weight / density", p.VolumeUnit(), all, end)
	return p.Steps()
}

// lotStep is the weight of a lot, so many times as it is pumped in; false where its
// density is that of a product.
func (p sheet) lotStep(r brine.StoreRequest, i int) (working.Term, bool) {
	lot := r.Lots[i]
	rho, err := lot.Liquid.Density(r.Temperature)
	if err != nil || len(lot.Liquid.Products) > 0 {
		return working.Term{}, false
	}
	volume := p.Of(lot.Volume)
	if r.Batches > 1 && i == len(r.Lots)-1 {
		times := working.Number(float64(r.Batches), "")
		volume = p.Step(p.Say("Lot %d, in all", i+1), "volume x batches", volume.Unit(), volume, times)
	}
	density := p.Read("Density of "+p.Contents(lot.Liquid), p.Say("at %v, Laliberte (2009)", r.Temperature), p.Density(rho))
	return p.weigh(p.Say("Weight of lot %d", i+1), volume, density), true
}
