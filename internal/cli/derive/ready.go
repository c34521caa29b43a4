package derive

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/ready"
	"brineyard/internal/report"
	"brineyard/internal/working"
)

// Ready works out the time to target from the fitted law.
func Ready(v show.View, r ready.Request, out ready.Result) []report.Step {
	if !out.Reaches {
		return nil
	}
	p := begin(v)
	level := out.Saturation
	if out.Fault == ready.Starved {
		level = out.Plateau
	}
	full, start, target := working.Percent(level), working.Percent(out.Start), working.Percent(r.Band.Target)
	rate := working.Number(60*out.Rate.Value, "")
	p.Read("Law of mixing", "strength = level - (level - start) x exp(-rate x minutes); start and rate by least squares through the readings", rate)
	from := p.Step("How far it was below the level at the first reading", "level - start", "%", full, start)
	to := p.Step("How far it is below it on target", "level - target", "%", full, target)
	ratio := p.Step("How many times closer", "first / second", "", from, to)
	log := p.Logarithm("Natural logarithm of that", ratio)
	p.Step("Minutes from the first reading to target", "logarithm / rate", "min", log, rate)
	p.Read("The answer: minutes of the clock that the readings are timed by",
		"the median over beds that level off from 24.4% to saturation, and over measured charges, each weighed by how well the readings fit it",
		p.Of(quantity.Duration(out.Target.Value)))
	return p.Steps()
}

// Through works out how strong brine leaves a bed that water runs through once.
func Through(v show.View, r ready.ThroughRequest, out ready.ThroughResult) []report.Step {
	p := begin(v)
	full, target := working.Percent(out.Saturation), working.Percent(r.Band.Target)
	bed, flow := p.Of(r.Bed), p.Of(r.Flow)
	k := working.Number(60*out.Constant.Value, "")
	p.Read("Bed with its pores", "its salt by its loose density", bed)
	p.Read("Constant of the bed", "from what left it before: ln(saturation / (saturation - strength)) x flow / bed", k)
	contact := p.Step("Minutes of contact", "bed / flow", "min", bed, flow)
	power := p.Step("Constant times minutes", "constant x minutes", "", k, contact)
	left := p.Exponential("What is left of the way to saturation", power)
	gap := p.Step("How far below saturation it leaves", "saturation x part", "%", full, left)
	p.Step("Leaves at", "saturation - gap", "%", full, gap)
	below := p.Step("How far the target is below saturation", "saturation - target", "%", full, target)
	ratio := p.Step("Saturation over that", "saturation / gap", "", full, below)
	log := p.Logarithm("Natural logarithm of that", ratio)
	p.Step("Flow for the target", "constant x bed / logarithm", flow.Unit(), k, bed, log)
	return p.Steps()
}
