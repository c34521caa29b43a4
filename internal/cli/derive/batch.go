package derive

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/working"
	"brineyard/internal/yard"
)

// Batch balances salt and water at the temperature that results.
func Batch(v show.View, r brine.BatchRequest, b brine.Batch) []report.Step {
	p := begin(v)
	volume, target := p.Of(r.Volume), working.Share(r.Target)
	density := p.Read(v.Say("Density of brine on target at %v, which it cools to", b.BrineTemp),
		v.Say("brine of %v, Laliberte (2009)", r.Target), p.Density(b.BrineDensity))
	whole := p.weigh("Weight of the batch", volume, density)
	salt := p.Step("Salt in it", "weight x strength", whole.Unit(), whole, target)
	water := p.Step("Water in it", "weight - salt", whole.Unit(), whole, salt)
	if r.HeelVolume > 0 {
		salt, water = p.heelSteps(r, b, salt, water)
	}
	load := p.loadSteps(r, salt)
	p.waterSteps(r, b, load, water)
	return p.Steps()
}

// heelSteps take off what the heel brings.
func (p sheet) heelSteps(r brine.BatchRequest, b brine.Batch, salt, water working.Term) (working.Term, working.Term) {
	volume, strength := p.Of(r.HeelVolume), working.Share(r.HeelStrength)
	density := p.Read("Density of the heel", p.Say("brine of %v at %v, Laliberte (2009)", r.HeelStrength, r.HeelTemp),
		p.Density(quantity.Density(float64(b.HeelMass)/float64(r.HeelVolume))))
	heel := p.weigh("Weight of the heel", volume, density)
	brought := p.Step("Salt in the heel", "weight x strength", heel.Unit(), heel, strength)
	rest := p.Step("Water in the heel", "weight - salt", heel.Unit(), heel, brought)
	salt = p.Step("Salt still wanted", "salt in the batch - salt in the heel", salt.Unit(), salt, brought)
	water = p.Step("Water still wanted", "water in the batch - water in the heel", water.Unit(), water, rest)
	return salt, water
}

// loadSteps turn NaCl into rock salt to load.
func (p sheet) loadSteps(r brine.BatchRequest, salt working.Term) working.Term {
	purity, moisture := working.Share(r.RockSalt.Purity), working.Share(r.RockSalt.Moisture)
	pure := p.Step("NaCl in each unit of rock salt as delivered", "(1 - moisture) x purity", "", moisture, purity)
	load := p.Step("Rock salt that dissolves", "salt wanted / NaCl in each", salt.Unit(), salt, pure)
	if r.Bed > 0 {
		bed := p.Of(r.Bed)
		load = p.Step("Rock salt to load", "what dissolves + bed", load.Unit(), load, bed)
	}
	return load
}

// waterSteps turn the water wanted into gallons and minutes.
func (p sheet) waterSteps(r brine.BatchRequest, b brine.Batch, load, water working.Term) {
	if r.RockSalt.Moisture > 0 {
		moisture := working.Share(r.RockSalt.Moisture)
		wet := p.Step("Water that comes with the salt", "rock salt x moisture", load.Unit(), load, moisture)
		water = p.Step("Water to add, by weight", "water wanted - moisture", water.Unit(), water, wet)
	}
	density := p.Density(b.WaterDensity)
	volume := p.Step("Water to add, by volume", "weight / density of water", p.VolumeUnit(), water, density)
	if b.FillTime > 0 {
		p.fillStep(volume, r.FreshWater(), b.Water)
	}
}

// fillStep works out how long fresh water takes: from the supply, or from a fresh-water tank until it is down.
func (k sheet) fillStep(volume working.Term, s yard.Supply, water quantity.Volume) working.Term {
	takes := s.FillTime(water)
	switch {
	case s.Tank == 0 || s.TankFlow == 0:
		return k.Step("Time to fill", "volume / flow", "min", volume, k.Of(s.Flow))
	case s.TankFlow <= s.Flow || takes <= water.Over(s.TankFlow)*(1+1e-12):
		return k.Step("Time to fill, from the fresh-water tank", "volume / flow", "min", volume, k.Of(s.TankFlow))
	}
	tank, out, in := k.Of(s.Tank), k.Of(s.TankFlow), k.Of(s.Flow)
	lasts := k.Step("The fresh-water tank lasts", "tank / (out - in)", "min", tank, out, in)
	first := k.Step("Water in that time", "out x minutes", volume.Unit(), out, lasts)
	return k.Step("Time to fill", "minutes + (volume - first) / in", "min", lasts, volume, first, in)
}
