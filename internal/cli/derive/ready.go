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
