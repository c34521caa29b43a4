package cli

import (
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/solution"
	"brineyard/internal/storm"
	"brineyard/internal/yard"
)

// stormWorking follows demand, batches and times, cost and chloride; loads stand in their
// table.
func stormWorking(s *setting, r storm.Request, p storm.Plan) []report.Step {
	if !s.globals.Working {
		return nil
	}
	k := &pocket{system: s.system}
	k.demandSteps(p)
	k.batchSteps(s, r, p)
	k.costSteps(r, p)
	return k.steps
}

// batchSteps follow a batch of each mixing tank that is used.
func (k *pocket) batchSteps(s *setting, r storm.Request, p storm.Plan) {
	if p.Production.Batches == 0 {
		return
	}
	wanted := k.of(p.Production.Wanted)
	k.read("Salt brine to make", "brine of all routes and the reserve, less what is usable in store", wanted)
	for _, run := range p.Production.Runs {
		k.chargeSteps(s, charge{
			name: run.Mixer.Name, off: run.Mixer.PumpOff, mix: run.Mix, target: r.Band.Target, at: r.Temperature, rock: r.Plant.RockSalt,
			waterAt: r.Plant.WaterTemp, supply: r.Plant.Supply, pump: r.Plant.Pump, density: run.Density, waterDensity: run.WaterDensity,
		})
	}
}

// costSteps follow what the storm costs and lays down, from the NaCl in what is loaded.
func (k *pocket) costSteps(r storm.Request, p storm.Plan) {
	if p.Loaded == 0 {
		return
	}
	rock, c := r.Plant.RockSalt, p.Cost
	nacl := k.read("NaCl in the brine that is loaded", "weight x strength, tank by tank", k.of(quantity.Mass(p.Balance.Loaded.Salt)))
	purity, moisture := k.share(rock.Purity), k.share(rock.Moisture)
	dry := k.of(p.DrySalt)
	salt := k.step("Salt for it as delivered, and dry salt", "NaCl / (purity x (1 - moisture)) + dry salt", "{} / ({} x (1 - {})) + {}",
		[]term{nacl, purity, moisture, dry}, nacl.value/(purity.value*(1-moisture.value))+dry.value, nacl.unit)
	if r.Prices.Salt != nil {
		price, ton := k.of(*r.Prices.Salt), number(2000, "lb")
		if k.system == quantity.Metric {
			ton = number(1000, "kg")
		}
		price.unit = ""
		k.step("Cost of the salt", "salt / a ton x price of a ton", "{} / {} x {}", []term{salt, ton, price}, salt.value/ton.value*price.value, "")
	}
	var parts []term
	for _, m := range []*quantity.Money{c.Salt, c.Water, c.Additive, c.Labour, c.Driving} {
		if m != nil && *m > 0 {
			parts = append(parts, number(float64(*m), ""))
		}
	}
	if len(parts) > 1 {
		total, loaded := k.sum("Cost: salt, water, liquids, labour and driving, as far as known", parts), k.of(p.Loaded)
		k.step("For each "+loaded.unit, "cost / loaded", "{} / {}", []term{total, loaded}, total.value/loaded.value, "")
	}
	k.chlorideSteps(nacl, p)
}

// chlorideSteps add up the chloride of brine, dry salt and bought liquids.
func (k *pocket) chlorideSteps(nacl term, p storm.Plan) {
	share := number(solution.Brine(1).Chloride(), "")
	own := k.step("Chloride in that NaCl", "NaCl x chloride in it (35.453 / 58.443)", "{} x {}", []term{nacl, share}, nacl.value*share.value, nacl.unit)
	all := []term{own}
	if rest := p.Cost.Chloride - quantity.Mass(p.Balance.Loaded.Chloride); rest > 1e-9*p.Cost.Chloride {
		all = append(all, k.read("Chloride in dry salt and bought liquids", "weight x strength x chloride in it, each", k.of(rest)))
	}
	if len(all) > 1 {
		own = k.sum("Chloride laid down", all)
	}
	if lanes := k.of(p.Cost.Lanes); lanes.value > 0 {
		k.step("On each "+lanes.unit+" of lane", "chloride / lanes served", "{} / {}", []term{own, lanes}, own.value/lanes.value, own.unit)
	}
}

// demandSteps multiplies out each route and adds up.
func (k *pocket) demandSteps(p storm.Plan) {
	var all []term
	for _, route := range p.Routes {
		all = append(all, k.routeStep(route.Route))
	}
	k.sum("Wanted in all", all)
}

// routeStep is what a route takes: rate x length or area x passes, or liquid on salt.
func (k *pocket) routeStep(r yard.Route) term {
	passes := number(float64(r.Passes), "")
	switch {
	case r.Area > 0:
		rate, area := k.of(r.AreaRate), k.of(r.Area)
		if k.system == quantity.Metric {
			area = number(float64(r.Area)/1e4, "ha")
		}
		return k.step(r.Name, "rate x area x passes", "{} x {} x {}", []term{rate, area, passes}, rate.value*area.value*passes.value, k.volumeUnit())
	case r.Prewet > 0:
		liquid, salt, lanes := k.of(r.Prewet), k.of(r.SaltRate), k.of(r.Lanes)
		ton := number(2000, "")
		if k.system == quantity.Metric {
			ton = number(1000, "")
		}
		return k.step(r.Name, "liquid a ton x salt on a lane x lanes x passes / pounds or kilograms in a ton", "{} x {} x {} x {} / {}",
			[]term{liquid, salt, lanes, passes, ton}, liquid.value*salt.value*lanes.value*passes.value/ton.value, k.volumeUnit())
	}
	rate, lanes := k.of(r.Rate), k.of(r.Lanes)
	return k.step(r.Name, "rate x lanes x passes", "{} x {} x {}", []term{rate, lanes, passes}, rate.value*lanes.value*passes.value, k.volumeUnit())
}
