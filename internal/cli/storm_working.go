package cli

import (
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// stormWorking follows demand, batches and times; loads and cost stand in the tables.
func stormWorking(s *setting, r brine.StormRequest, p brine.StormPlan) []report.Step {
	k := &pocket{system: s.system}
	k.demandSteps(p)
	if p.Production.Batches == 0 {
		return k.steps
	}
	wanted := k.of(p.Production.Wanted)
	k.read("Salt brine to make", "brine of all routes and the reserve, less what is usable in store", wanted)
	for _, run := range p.Production.Runs {
		k.runSteps(s, r, run)
	}
	return k.steps
}

// demandSteps multiplies out each route and adds up.
func (k *pocket) demandSteps(p brine.StormPlan) {
	var sum []term
	total := 0.0
	for _, route := range p.Routes {
		t := k.routeStep(route.Route)
		sum = append(sum, t)
		total += t.value
	}
	k.step("Wanted in all", "sum", strings.TrimSuffix(strings.Repeat("{} + ", len(sum)), " + "), sum, total, k.volumeUnit())
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

// runSteps is a batch of a mixing tank: salt, water, and how long it takes.
func (k *pocket) runSteps(s *setting, r brine.StormRequest, run brine.MixerRun) {
	off, target := k.of(run.Mixer.PumpOff), k.share(r.Band.Target)
	rho := k.read(run.Mixer.Name+": density of brine on target", s.show("%v at %v, Laliberte (2009)", r.Band.Target, r.Temperature), k.density(run.Density))
	weight := k.weigh("Weight of a batch", off, rho)
	salt := k.step("Salt in it", "weight x strength", "{} x {}", []term{weight, target}, weight.value*target.value, weight.unit)
	delivered := salt
	if rock := r.Plant.RockSalt; rock != brine.PureSalt {
		purity, moisture := k.share(rock.Purity), k.share(rock.Moisture)
		delivered = k.step("Salt as delivered", "salt / (purity x (1 - moisture))", "{} / ({} x (1 - {}))",
			[]term{salt, purity, moisture}, salt.value/(purity.value*(1-moisture.value)), weight.unit)
	}
	moisture := k.share(r.Plant.RockSalt.Moisture)
	water := k.step("Water to run in, by weight", "weight - salt - water in the salt as delivered", "{} - {} - {} x {}",
		[]term{weight, salt, delivered, moisture}, weight.value-salt.value-delivered.value*moisture.value, weight.unit)
	fresh := k.read("Density of the water", s.show("at %v", r.Plant.WaterTemp), k.density(run.WaterDensity))
	volume := k.step("Water to run in", "weight / density", "{} / {}", []term{water, fresh}, water.value/fresh.value, k.volumeUnit())
	k.timeSteps(r, run, volume, off)
}

// timeSteps is how long a batch takes.
func (k *pocket) timeSteps(r brine.StormRequest, run brine.MixerRun, water, off term) {
	supply, pump, mix := k.of(r.Plant.Supply), k.of(r.Plant.Pump), k.of(run.Mix)
	fill := k.step("Filling takes", "water / flow of the supply", "{} / {}", []term{water, supply}, water.value/supply.value, "min")
	pumpOff := k.step("Pumping off takes", "batch / flow of the pump", "{} / {}", []term{off, pump}, off.value/pump.value, "min")
	k.step("A batch takes, from fresh water to store", "fill + mix + pump off", "{} + {} + {}",
		[]term{fill, mix, pumpOff}, fill.value+mix.value+pumpOff.value, "min")
}
