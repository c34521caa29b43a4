package cli

import (
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// correctWorking follows the balance of weights, one step a line.
func correctWorking(s *setting, r brine.CorrectRequest, c brine.Correction) []report.Step {
	if !s.globals.Working {
		return nil
	}
	p := &pocket{system: s.system}
	if c.Additive == brine.AnyAdditive {
		return nil
	}
	volume := p.of(r.Volume)
	density := p.read("Density of the brine in the tank", s.show("brine of %v at %v, Laliberte (2009)", r.Strength, r.Temperature), p.density(c.TankDensity))
	tank := p.weigh("Weight of the brine in the tank", volume, density)
	var added, total term
	switch c.Additive {
	case brine.AddWater:
		added, total = p.waterStep(r, c, tank)
	case brine.AddStock:
		added, total = p.stockStep(s, r, c, tank)
	default:
		added, total = p.saltStep(r, tank)
	}
	end := p.read("Density of brine on target", s.show("brine of %v at %v, Laliberte (2009)", r.Target, r.Temperature), p.density(c.EndDensity))
	final := p.step("Volume that it comes to", "weight / density", "{} / {}", []term{total, end}, total.value/end.value, volume.unit)
	p.drawOffSteps(r, c, volume, added, final)
	return p.steps
}

// weigh adds the step from a volume to its weight.
func (p *pocket) weigh(what string, volume, density term) term {
	return p.step(what, "volume x density", "{} x {}", []term{volume, density}, volume.value*density.value, p.massUnit())
}

// massUnit is the unit of weight in the user's system.
func (p *pocket) massUnit() string { return quantity.Pound.In(p.system).Unit }

// volumeUnit is the unit of volume.
func (p *pocket) volumeUnit() string { return quantity.Gallon.In(p.system).Unit }

// waterStep finds the water, and the weight in the tank afterwards.
func (p *pocket) waterStep(r brine.CorrectRequest, c brine.Correction, tank term) (added, total term) {
	now, target := p.share(r.Strength), p.share(r.Target)
	salt := p.step("Salt in it", "weight x strength", "{} x {}", []term{tank, now}, tank.value*now.value, tank.unit)
	total = p.step("Brine on target that this salt makes", "salt / target strength", "{} / {}", []term{salt, target}, salt.value/target.value, tank.unit)
	water := p.step("Water to add, by weight", "brine on target - brine in the tank", "{} - {}", []term{total, tank}, total.value-tank.value, tank.unit)
	density := p.density(c.AddDensity)
	added = p.step("Water to add, by volume", "weight / density of water", "{} / {}", []term{water, density}, water.value/density.value, p.volumeUnit())
	return added, total
}

// stockStep finds the stored brine, and the weight in the tank afterwards.
func (p *pocket) stockStep(s *setting, r brine.CorrectRequest, c brine.Correction, tank term) (added, total term) {
	now, target, stock := p.share(r.Strength), p.share(r.Target), p.share(r.Stock)
	short := p.step("Salt that the tank is short of (below zero: has too much)", "weight x (target - strength)", "{} x ({} - {})",
		[]term{tank, target, now}, tank.value*(target.value-now.value), tank.unit)
	gain := p.step("What each unit of stock brings beyond target", "strength of the stock - target", "{} - {}",
		[]term{stock, target}, stock.value-target.value, "")
	weight := p.step("Stock to add, by weight", "short / what each brings", "{} / {}", []term{short, gain}, short.value/gain.value, tank.unit)
	density := p.read("Density of the stock", s.show("brine of %v at %v, Laliberte (2009)", r.Stock, r.Temperature), p.density(c.AddDensity))
	added = p.step("Stock to add, by volume", "weight / density", "{} / {}", []term{weight, density}, weight.value/density.value, p.volumeUnit())
	total = p.step("Weight in the tank then", "brine in the tank + stock", "{} + {}", []term{tank, weight}, tank.value+weight.value, tank.unit)
	return added, total
}

// saltStep finds the rock salt, and the weight of liquid in the tank afterwards.
func (p *pocket) saltStep(r brine.CorrectRequest, tank term) (added, total term) {
	now, target := p.share(r.Strength), p.share(r.Target)
	purity, moisture := p.share(r.RockSalt.Purity), p.share(r.RockSalt.Moisture)
	short := p.step("Salt that the tank is short of", "weight x (target - strength)", "{} x ({} - {})",
		[]term{tank, target, now}, tank.value*(target.value-now.value), tank.unit)
	pure := p.step("NaCl in each unit of rock salt as delivered", "(1 - moisture) x purity", "(1 - {}) x {}",
		[]term{moisture, purity}, (1-moisture.value)*purity.value, "")
	gain := p.step("What each unit brings beyond target, since it too becomes brine", "NaCl - target x (NaCl + moisture)", "{} - {} x ({} + {})",
		[]term{pure, target, pure, moisture}, pure.value-target.value*(pure.value+moisture.value), "")
	added = p.step("Rock salt to add", "short / what each brings", "{} / {}", []term{short, gain}, short.value/gain.value, tank.unit)
	total = p.step("Weight of liquid in the tank then", "brine in the tank + rock salt x (NaCl + moisture)", "{} + {} x ({} + {})",
		[]term{tank, added, pure, moisture}, tank.value+added.value*(pure.value+moisture.value), tank.unit)
	return added, total
}

// drawOffSteps scale the correction to the tank when it does not fit.
func (p *pocket) drawOffSteps(r brine.CorrectRequest, c brine.Correction, volume, added, final term) {
	if c.DrawOffFirst == 0 {
		return
	}
	capacity := p.of(r.Capacity)
	share := p.step("Share that fits the tank", "capacity / volume that it comes to", "{} / {}", []term{capacity, final}, capacity.value/final.value, "")
	p.step("Draw off first", "volume x (1 - share)", "{} x (1 - {})", []term{volume, share}, volume.value*(1-share.value), volume.unit)
	p.step("Then add", "the whole addition x share", "{} x {}", []term{added, share}, added.value*share.value, added.unit)
}
