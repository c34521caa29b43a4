package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// stormWorking follows demand, batches and times; loads and cost stand in the tables.
func stormWorking(s *setting, r brine.StormRequest, p brine.StormPlan) []report.Step {
	if !s.globals.working {
		return nil
	}
	k := &pocket{system: s.system}
	k.demandSteps(p)
	if p.Production.Batches == 0 {
		return k.steps
	}
	wanted := k.of(p.Production.Wanted)
	k.read("Salt brine to make", "brine of all routes and the reserve, less what is usable in store", wanted)
	for _, run := range p.Production.Runs {
		k.chargeSteps(s, charge{
			name: run.Mixer.Name, off: run.Mixer.PumpOff, mix: run.Mix, target: r.Band.Target, at: r.Temperature, rock: r.Plant.RockSalt,
			waterAt: r.Plant.WaterTemp, supply: r.Plant.Supply, pump: r.Plant.Pump, density: run.Density, waterDensity: run.WaterDensity,
		})
	}
	return k.steps
}

// demandSteps multiplies out each route and adds up.
func (k *pocket) demandSteps(p brine.StormPlan) {
	var all []term
	for _, route := range p.Routes {
		all = append(all, k.routeStep(route.Route))
	}
	k.sum("Wanted in all", all)
}

// routeStep is what a route takes: rate x length or area x passes, or liquid on salt.
func (k *pocket) routeStep(r brine.StormRoute) term {
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
