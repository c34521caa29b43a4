package derive

import (
	"brineyard/internal/quantity"
	"brineyard/internal/working"
	"brineyard/internal/yard"
)

// charge is a batch of a mixing tank on its heel: what goes in for what is pumped off.
type charge struct {
	name                  string
	off                   quantity.Volume
	mix                   quantity.Duration
	target                quantity.Strength
	at, waterAt           quantity.Temperature
	rock                  yard.RockSalt
	supply, pump          quantity.Flow
	density, waterDensity quantity.Density
	tank                  yard.Supply // where a fresh-water tank gives the water of a batch
	water                 quantity.Volume
}

// cycle is how long a batch takes, from fresh water to store, and what that makes an hour.
type cycle struct {
	name                              string
	fill, mix, pumpOff, whole, anHour working.Term
	known                             bool
}

// chargeSteps are its salt and water, and how long it takes.
func (k sheet) chargeSteps(c charge) cycle {
	off, target := k.Of(c.off), working.Share(c.target)
	rho := k.Read(c.name+": density of brine on target", k.Say("%v at %v, Laliberte (2009)", c.target, c.at), k.Density(c.density))
	weight := k.weigh("Weight of a batch", off, rho)
	salt := k.Step("Salt in it", "weight x strength", weight.Unit(), weight, target)
	delivered := salt
	purity, moisture := working.Share(c.rock.Purity), working.Share(c.rock.Moisture)
	if c.rock != yard.PureSalt() {
		delivered = k.Step("Salt as delivered", "salt / (purity x (1 - moisture))", weight.Unit(), salt, purity, moisture)
	}
	water := k.StepAs("Water to run in, by weight", "weight - salt - water in the salt as delivered", "{} - {} - {} x {}", weight.Unit(), weight, salt, delivered, moisture)
	fresh := k.Read("Density of the water", k.Say("at %v, Laliberte (2009)", c.waterAt), k.Density(c.waterDensity))
	volume := k.Step("Water to run in", "weight / density", k.VolumeUnit(), water, fresh)
	return k.timeSteps(c, volume, off)
}

// timeSteps are fill, mix and pump off, where their flows are known.
func (k sheet) timeSteps(c charge, water, off working.Term) cycle {
	if c.supply == 0 || c.pump == 0 || c.mix == 0 {
		return cycle{}
	}
	supply, pump, mix := k.Of(c.supply), k.Of(c.pump), k.Of(c.mix)
	var fill working.Term
	if c.tank.Tank > 0 {
		fill = k.fillStep(water, c.tank, c.water)
	} else {
		fill = k.Step("Filling takes", "water / flow of the supply", "min", water, supply)
	}
	pumpOff := k.Step("Pumping off takes", "batch / flow of the pump", "min", off, pump)
	all := k.Step("A batch takes, from fresh water to store", "fill + mix + pump off", "min", fill, mix, pumpOff)
	hour := working.Number(60, "min")
	alone := k.StepAs("Brine an hour, from this tank alone", "batch x 60 min / time of a batch", "{} x {} / {}", k.VolumeUnit(), off, hour, all)
	return cycle{name: c.name, fill: fill, mix: mix, pumpOff: pumpOff, whole: all, anHour: alone, known: true}
}
