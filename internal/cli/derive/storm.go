package derive

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/storm"
	"brineyard/internal/working"
	"brineyard/internal/yard"
)

// Storm follows demand, batches and times, cost and chloride; loads stand in their
// table.
func Storm(v show.View, r storm.Request, p storm.Plan) []report.Step {
	k := begin(v)
	k.demandSteps(p)
	k.batchSteps(r, p)
	k.costSteps(r, p)
	return k.Steps()
}

// batchSteps follow a batch of each mixing tank that is used.
func (k sheet) batchSteps(r storm.Request, p storm.Plan) {
	if p.Production.Batches == 0 {
		return
	}
	wanted := k.Of(p.Production.Wanted)
	k.Read("Salt brine to make", "brine of all routes and the reserve, less what is usable in store, and what empty tanks keep below their suctions", wanted)
	for _, run := range p.Production.Runs {
		k.chargeSteps(charge{
			name: run.Mixer.Name, off: run.Mixer.PumpOff, mix: run.Mix, target: r.Band.Target, at: r.Temperature, rock: r.Pile.Quality,
			waterAt: r.Supply.Temperature, supply: r.Supply.Flow, pump: run.Off, tank: r.Supply.Fed(r.Pump.Flow), water: run.Water, density: run.Density, waterDensity: run.WaterDensity,
		})
	}
}

// costSteps follow what the storm costs and lays down, from the NaCl in what is loaded.
func (k sheet) costSteps(r storm.Request, p storm.Plan) {
	if p.Loaded == 0 {
		return
	}
	rock, c := r.Pile.Quality, p.Cost
	nacl := k.Read("NaCl in the brine that is loaded", "weight x strength, tank by tank", k.Of(quantity.Mass(p.Balance.Loaded.NaCl)))
	purity, moisture := working.Share(rock.Purity), working.Share(rock.Moisture)
	dry := k.Of(p.DrySalt)
	salt := k.Step("Salt for it as delivered, and dry salt", "NaCl / (purity x (1 - moisture)) + dry salt", nacl.Unit(), nacl, purity, moisture, dry)
	if r.Prices.Salt != nil {
		price, ton := k.Of(*r.Prices.Salt).In(""), working.Number(2000, "lb")
		if !k.US() {
			ton = working.Number(1000, "kg")
		}
		k.Step("Cost of the salt", "salt / a ton x price of a ton", "", salt, ton, price)
	}
	var parts []working.Term
	for _, m := range []*quantity.Money{c.Salt, c.Water, c.Additive, c.Labour, c.Driving} {
		if m != nil && *m > 0 {
			parts = append(parts, working.Number(float64(*m), ""))
		}
	}
	if len(parts) > 1 {
		total, loaded := k.Sum("Cost: salt, water, liquids, labour and driving, as far as known", "sum", parts...), k.Of(p.Loaded)
		k.Step("For each "+loaded.Unit(), "cost / loaded", "", total, loaded)
	}
	k.chlorideSteps(nacl, p)
}

// chlorideSteps add up the chloride of brine, dry salt and bought liquids.
func (k sheet) chlorideSteps(nacl working.Term, p storm.Plan) {
	share := working.Number(solution.Brine(1).Chloride(), "")
	own := k.StepAs("Chloride in that NaCl", "NaCl x chloride in it (35.453 / 58.443)", "{} x {}", nacl.Unit(), nacl, share)
	all := []working.Term{own}
	if rest := p.Cost.Chloride - quantity.Mass(p.Balance.Loaded.Chloride()); rest > 1e-9*p.Cost.Chloride {
		all = append(all, k.Read("Chloride in dry salt and bought liquids", "weight x strength x chloride in it, each", k.Of(rest)))
	}
	if len(all) > 1 {
		own = k.Sum("Chloride laid down", "sum", all...)
	}
	if lanes := k.Of(p.Cost.Lanes); lanes.Value() > 0 {
		k.Step("On each "+lanes.Unit()+" of lane", "chloride / lanes served", own.Unit(), own, lanes)
	}
}

// demandSteps multiplies out each route and adds up.
func (k sheet) demandSteps(p storm.Plan) {
	var all []working.Term
	for _, route := range p.Routes {
		all = append(all, k.routeStep(route.Route))
	}
	k.Sum("Wanted in all", "sum", all...)
}

// routeStep is what a route takes: rate x length or area x passes, or liquid on salt.
func (k sheet) routeStep(r yard.Route) working.Term {
	passes := working.Number(float64(r.Passes), "")
	switch {
	case r.Area > 0:
		rate, area := k.Of(r.AreaRate), k.Of(r.Area)
		if !k.US() {
			area = working.Number(float64(r.Area)/1e4, "ha")
		}
		return k.Step(r.Name, "rate x area x passes", k.VolumeUnit(), rate, area, passes)
	case r.Prewet > 0:
		liquid, salt, lanes := k.Of(r.Prewet), k.Of(r.SaltRate), k.Of(r.Lanes)
		ton := working.Number(2000, "")
		if !k.US() {
			ton = working.Number(1000, "")
		}
		return k.Step(r.Name, "liquid a ton x salt on a lane x lanes x passes / pounds or kilograms in a ton", k.VolumeUnit(), liquid, salt, lanes, passes, ton)
	}
	rate, lanes := k.Of(r.Rate), k.Of(r.Lanes)
	return k.Step(r.Name, "rate x lanes x passes", k.VolumeUnit(), rate, lanes, passes)
}
