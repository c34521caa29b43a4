package derive

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/report"
	"brineyard/internal/truck"
	"brineyard/internal/working"
)

// Truck shows the load and the flow.
func Truck(v show.View, r truck.Request, out truck.Result) []report.Step {
	p := begin(v)
	if l := out.Load; l.Known {
		load := p.Of(r.Tank)
		density := p.Read("Density of the liquid", v.Say("at %v, Laliberte (2009)", r.Temperature), p.Density(out.Density))
		if r.Gross > 0 {
			gross, empty := p.Of(r.Gross), p.Of(r.Empty)
			may := p.Step("Weight that the truck may carry", "gross limit - empty weight", gross.Unit(), gross, empty)
			byWeight := p.Step("That is in volume", "weight / density", p.VolumeUnit(), may, density)
			load = p.Least("To load", v.Say("the less of that and the tank of %v", r.Tank), byWeight, load)
		}
		p.weigh("Weight of the load", load, density)
		if l.Time > 0 {
			p.Step("Loading time", "volume / flow", "min", load, p.Of(r.LoadFlow))
		}
	}
	if out.Spray.Known && r.Rate > 0 {
		p.laneFlow(r, out.Spray)
	}
	if out.Catch.Known {
		p.catchSteps(r, out.Catch)
	}
	return p.Steps()
}

// catchSteps compare the flow caught with the flow wanted.
func (p sheet) catchSteps(r truck.Request, c truck.Catch) {
	caught, over := p.Of(r.Caught), p.Of(r.Over)
	flow := p.Step("Flow caught", "volume / minutes", p.Of(c.Flow).Unit(), caught, over)
	if c.Factor == 0 || r.Rate == 0 {
		return
	}
	speed, lanes := p.Of(r.Speed), working.Number(float64(max(1, r.Lanes)), "")
	laid := p.Step("Rate laid down on a lane", "60 x flow / (speed x lanes)", p.Of(c.Rate).Unit(), flow, speed, lanes)
	wanted := p.Of(r.Rate)
	p.Step("Flow to be multiplied by", "wanted / laid down", "", wanted, laid)
}

// laneFlow is rate x speed x lanes / 60.
func (p sheet) laneFlow(r truck.Request, out truck.Spray) {
	rate, speed, lanes := p.Of(r.Rate), p.Of(r.Speed), working.Number(float64(max(1, r.Lanes)), "")
	boom := p.Step("Flow of the boom", "rate x speed x lanes / 60", p.Of(out.Boom).Unit(), rate, speed, lanes)
	if r.Nozzles > 0 {
		n := working.Number(float64(r.Nozzles), "")
		p.Step("Flow of a nozzle", "flow of the boom / nozzles", boom.Unit(), boom, n)
	}
}
