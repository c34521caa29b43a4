package derive

import (
	"brineyard/internal/cli/show"
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
	after := p.Step("Minutes from the first reading to target", "logarithm / rate", "min", log, rate)
	if first := p.Of(r.Samples[0].At); first.Value() != 0 {
		p.Step("Minute of that, as the readings are timed", "minute of the first reading + minutes from it", "min", first, after)
	}
	return p.Steps()
}
