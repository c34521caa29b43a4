package derive

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/working"
)

// Correct follows the balance of weights, one step a line.
func Correct(v show.View, r brine.CorrectRequest, c brine.Correction) []report.Step {
	p := begin(v)
	if c.Additive == brine.AnyAdditive {
		return nil
	}
	volume := p.Of(r.Volume)
	density := p.Read("Density of the brine in the tank", v.Say("brine of %v at %v, Laliberte (2009)", r.Strength, r.Temperature), p.Density(c.TankDensity))
	tank := p.weigh("Weight of the brine in the tank", volume, density)
	var added, total working.Term
	switch c.Additive {
	case brine.AddWater:
		added, total = p.waterStep(r, c, tank)
	case brine.AddStock:
		added, total = p.stockStep(r, c, tank)
	default:
		added, total = p.saltStep(r, tank)
	}
	end := p.Read("Density of brine on target", v.Say("brine of %v at %v, Laliberte (2009)", r.Target, r.Temperature), p.Density(c.EndDensity))
	final := p.Step("Volume that it comes to", "weight / density", volume.Unit(), total, end)
	p.drawOffSteps(r, c, volume, added, final)
	return p.Steps()
}

// waterStep finds the water, and the weight in the tank afterwards.
func (p sheet) waterStep(r brine.CorrectRequest, c brine.Correction, tank working.Term) (added, total working.Term) {
	now, target := working.ShareBeside(r.Strength, r.Target), working.Share(r.Target)
	water := p.Step("Water to add, by weight", "weight x (strength - target) / target", tank.Unit(), tank, now, target, target)
	added = p.Step("Water to add, by volume", "weight / density of water", p.VolumeUnit(), water, p.Density(c.AddDensity))
	total = p.Step("Weight in the tank then", "brine in the tank + water", tank.Unit(), tank, water)
	return added, total
}

// stockStep finds the stored brine, and the weight in the tank afterwards.
func (p sheet) stockStep(r brine.CorrectRequest, c brine.Correction, tank working.Term) (added, total working.Term) {
	now, target, stock := working.ShareBeside(r.Strength, r.Target), working.Share(r.Target), working.ShareBeside(r.Stock, r.Target)
	short := p.Step("Salt that the tank is short of (below zero: has too much)", "weight x (target - strength)", tank.Unit(), tank, target, now)
	gain := p.Step("What each unit of stock brings beyond target", "strength of the stock - target", "", stock, target)
	weight := p.Step("Stock to add, by weight", "short / what each brings", tank.Unit(), short, gain)
	density := p.Read("Density of the stock", p.Say("brine of %v at %v, Laliberte (2009)", r.Stock, r.Temperature), p.Density(c.AddDensity))
	added = p.Step("Stock to add, by volume", "weight / density", p.VolumeUnit(), weight, density)
	total = p.Step("Weight in the tank then", "brine in the tank + stock", tank.Unit(), tank, weight)
	return added, total
}

// saltStep finds the rock salt, and the weight of liquid in the tank afterwards.
func (p sheet) saltStep(r brine.CorrectRequest, tank working.Term) (added, total working.Term) {
	now, target := working.ShareBeside(r.Strength, r.Target), working.Share(r.Target)
	purity, moisture := working.Share(r.RockSalt.Purity), working.Share(r.RockSalt.Moisture)
	short := p.Step("Salt that the tank is short of", "weight x (target - strength)", tank.Unit(), tank, target, now)
	pure := p.Step("NaCl in each unit of rock salt as delivered", "(1 - moisture) x purity", "", moisture, purity)
	gain := p.Step("What each unit brings beyond target, since it too becomes brine", "NaCl - target x (NaCl + moisture)", "", pure, target, pure, moisture)
	added = p.Step("Rock salt to add", "short / what each brings", tank.Unit(), short, gain)
	total = p.Step("Weight of liquid in the tank then", "brine in the tank + rock salt x (NaCl + moisture)", tank.Unit(), tank, added, pure, moisture)
	return added, total
}

// drawOffSteps scale the correction to the tank when it does not fit.
func (p sheet) drawOffSteps(r brine.CorrectRequest, c brine.Correction, volume, added, final working.Term) {
	if c.DrawOffFirst == 0 {
		return
	}
	capacity := p.Of(r.Capacity)
	share := p.Step("Share that fits the tank", "capacity / volume that it comes to", "", capacity, final)
	p.Step("Draw off first", "volume x (1 - share)", volume.Unit(), volume, share)
	p.Step("Then add", "the whole addition x share", added.Unit(), added, share)
}
