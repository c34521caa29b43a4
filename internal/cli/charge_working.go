package cli

import (
	"brineyard/internal/quantity"
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
}

// chargeSteps are its salt and water, and how long it takes.
func (k *pocket) chargeSteps(s *setting, c charge) {
	off, target := k.of(c.off), k.share(c.target)
	rho := k.read(c.name+": density of brine on target", s.show("%v at %v, Laliberte (2009)", c.target, c.at), k.density(c.density))
	weight := k.weigh("Weight of a batch", off, rho)
	salt := k.step("Salt in it", "weight x strength", "{} x {}", []term{weight, target}, weight.value*target.value, weight.unit)
	delivered := salt
	purity, moisture := k.share(c.rock.Purity), k.share(c.rock.Moisture)
	if c.rock != yard.PureSalt() {
		delivered = k.step("Salt as delivered", "salt / (purity x (1 - moisture))", "{} / ({} x (1 - {}))",
			[]term{salt, purity, moisture}, salt.value/(purity.value*(1-moisture.value)), weight.unit)
	}
	water := k.step("Water to run in, by weight", "weight - salt - water in the salt as delivered", "{} - {} - {} x {}",
		[]term{weight, salt, delivered, moisture}, weight.value-salt.value-delivered.value*moisture.value, weight.unit)
	fresh := k.read("Density of the water", s.show("at %v, Laliberte (2009)", c.waterAt), k.density(c.waterDensity))
	volume := k.step("Water to run in", "weight / density", "{} / {}", []term{water, fresh}, water.value/fresh.value, k.volumeUnit())
	k.timeSteps(c, volume, off)
}

// timeSteps are fill, mix and pump off, where their flows are known.
func (k *pocket) timeSteps(c charge, water, off term) {
	if c.supply == 0 || c.pump == 0 || c.mix == 0 {
		return
	}
	supply, pump, mix := k.of(c.supply), k.of(c.pump), k.of(c.mix)
	fill := k.step("Filling takes", "water / flow of the supply", "{} / {}", []term{water, supply}, water.value/supply.value, "min")
	pumpOff := k.step("Pumping off takes", "batch / flow of the pump", "{} / {}", []term{off, pump}, off.value/pump.value, "min")
	all := k.step("A batch takes, from fresh water to store", "fill + mix + pump off", "{} + {} + {}",
		[]term{fill, mix, pumpOff}, fill.value+mix.value+pumpOff.value, "min")
	hour := number(60, "min")
	k.step("Brine an hour, from this tank alone", "batch x 60 min / time of a batch", "{} x {} / {}", []term{off, hour, all}, off.value*60/all.value, k.volumeUnit())
}
