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
			if r.Margin > 0 {
				may = p.Step("Less what is kept for the scale and the driver", "that weight - margin", gross.Unit(), may, p.Of(r.Margin))
			}
			byWeight := p.Step("That is in volume", "weight / density", p.VolumeUnit(), may, density)
			load = p.Least("To load", v.Say("the less of that and the tank of %v", r.Tank), byWeight, load)
		}
		load = p.axleSteps(r, out, density, load)
		p.weigh("Weight of the load", load, density)
		if l.Time > 0 {
			p.Step("Loading time", "volume / flow", "min", load, p.Of(r.LoadFlow))
		}
	}
	if out.Spray.Known {
		p.boomSteps(r, out.Spray)
	}
	if out.Catch.Known {
		p.catchSteps(r, out.Catch)
	}
	return p.Steps()
}

// catchSteps compare what was caught with the rate that is wanted, if there is one.
func (p sheet) catchSteps(r truck.Request, c truck.Catch) {
	caught, over := p.Of(r.Caught), p.Of(r.Over)
	flow := p.Step("Flow caught", "volume / minutes", p.Of(c.Flow).Unit(), caught, over)
	if r.Speed == 0 {
		return
	}
	speed := p.Of(r.Speed)
	laid, wanted := working.Term{}, p.Of(r.AreaRate)
	if c.AreaRate > 0 {
		laid = p.Step("Rate laid down on an area", p.areaMinutes()+" x flow / (speed x width)", wanted.Unit(), flow, speed, p.Of(r.Width))
	}
	if r.AreaRate == 0 {
		wanted = p.Of(r.Rate)
		laid = p.Step("Rate laid down on a lane", "60 x flow / (speed x lanes)", wanted.Unit(), flow, speed, lanesOf(r))
	}
	if c.Factor > 0 {
		p.Step("Flow to be multiplied by", "wanted / laid down", "", wanted, laid)
	}
}

// boomSteps are rate x speed x lanes, or x width, by the minute.
func (p sheet) boomSteps(r truck.Request, out truck.Spray) {
	speed, unit := p.Of(r.Speed), p.Of(out.Boom).Unit()
	var boom working.Term
	if r.Rate > 0 {
		boom = p.Step("Flow of the boom", "rate x speed x lanes / 60", unit, p.Of(r.Rate), speed, lanesOf(r))
	} else {
		boom = p.Step("Flow of the boom", "rate x speed x width / "+p.areaMinutes(), unit, p.Of(r.AreaRate), speed, p.Of(r.Width))
	}
	if r.Nozzles > 0 {
		n := working.Number(float64(r.Nozzles), "")
		p.Step("Flow of a nozzle", "flow of the boom / nozzles", unit, boom, n)
	}
}

// lanesOf are those sprayed at once.
func lanesOf(r truck.Request) working.Term { return working.Number(float64(max(1, r.Lanes)), "") }

// areaMinutes is how many minutes a swath one unit wide takes over one unit of area at one
// unit of speed: 60 x 43560 ft2 in an acre / 5280 ft in a mile, or 60 x 10000 m2 in a
// hectare / 1000 m in a kilometer.
func (p sheet) areaMinutes() string {
	if p.US() {
		return "495"
	}
	return "600"
}

// axleSteps work out what each axle leaves, where the yard file knows them.
func (p sheet) axleSteps(r truck.Request, out truck.Result, density, load working.Term) working.Term {
	a := r.Axles
	if a == nil {
		return load
	}
	both, margin := p.Of(a.FrontLimit+a.RearLimit), p.Of(r.Margin)
	part := p.Step("Part of a load on the front axle", "tank ahead of the rear axle / wheelbase", "", working.Number(float64(a.Ahead)/0.0254, ""), working.Number(float64(a.Wheelbase)/0.0254, ""))
	limit, empty := p.Of(a.FrontLimit), p.Of(a.FrontEmpty)
	if a.Front() > 0 {
		kept := p.Step("Of the margin, kept in front", "margin x limit / both limits", margin.Unit(), margin, limit, both)
		front := p.Step("Load by the front axle", "(limit - empty - kept) / part", limit.Unit(), limit, empty, kept, part)
		volume := p.Step("That is in volume", "weight / density", p.VolumeUnit(), front, density)
		load = p.Least("To load", "the less of that and what went before", volume, load)
	}
	if a.Front() < 1 {
		limit, empty = p.Of(a.RearLimit), p.Of(r.Empty-a.FrontEmpty)
		kept := p.Step("Of the margin, kept behind", "margin x limit / both limits", margin.Unit(), margin, limit, both)
		rear := p.Step("Load by the rear axle", "(limit - empty - kept) / (1 - part)", limit.Unit(), limit, empty, kept, part)
		volume := p.Step("That is in volume", "weight / density", p.VolumeUnit(), rear, density)
		load = p.Least("To load", "the less of that and what went before", volume, load)
	}
	return load
}
