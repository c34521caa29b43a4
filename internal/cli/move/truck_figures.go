package move

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/truck"
)

func truckFigures(v show.View, r truck.Request, out truck.Result) []report.Figure {
	figures := []report.Figure{v.Figure("density", v.Say("Density at %v", r.Temperature), out.Density)}
	if out.Load.Known {
		figures = append(figures, loadFigures(v, r, out.Load)...)
	}
	if out.Spray.Known {
		figures = append(figures, sprayFigures(v, r, out.Spray)...)
	}
	if out.Catch.Known {
		figures = append(figures, catchFigures(v, r, out.Catch)...)
	}
	return figures
}

func loadFigures(v show.View, r truck.Request, l truck.Load) []report.Figure {
	load, total := v.Figure("load", "Load", l.Volume), v.Figure("gross_weight", "Truck and load weigh", l.Total)
	if l.Weighed { // never over the limit by rounding
		load.Value.Text, total.Value.Text = v.Inward(l.Volume, -1), v.Inward(l.Total, -1)
	}
	figures := []report.Figure{
		load,
		v.Figure("load_weight", "It weighs", l.Weight),
		show.QuietUnless(r.Gross > 0, total),
		show.QuietUnless(l.Front > 0, v.Figure("front_axle", "On the front axle", l.Front)),
		show.QuietUnless(l.Rear > 0, v.Figure("rear_axle", "On the rear axle", l.Rear)),
		show.Quiet(report.Figure{Key: "limited_by", Label: "Limited by", Value: report.Word(string(l.By))}),
		show.QuietUnless(r.Gross > 0, v.Figure("margin", "Kept for the scale and the driver", r.Margin)),
		show.QuietUnless(r.Gross > 0, v.Figure("weight_left", "Left below the gross limit", l.Left)),
	}
	if l.Time > 0 {
		figures = append(figures, v.Figure("load_time", v.Say("Loads at %v in", r.LoadFlow), l.Time))
	}
	if l.Loads > 0 {
		figures = append(figures,
			v.Figure("loads", v.Say("Loads for %v", r.Haul), quantity.Count(l.Loads)),
			v.Figure("last_load", "of which the last is", l.LastOne))
	}
	return figures
}

func sprayFigures(v show.View, r truck.Request, p truck.Spray) []report.Figure {
	return []report.Figure{
		v.Figure("boom_flow", "Flow of the boom", p.Boom),
		show.QuietUnless(p.Beyond, v.Figure("most_speed", "The boom's pump suffices up to", p.MostSpeed)),
		show.IfAny(v, "nozzle_flow", v.Say("Flow of each of %d nozzles", max(1, r.Nozzles)), p.Nozzle),
		show.IfAny(v, "reach", "A load goes for", p.Reach),
		show.IfAny(v, "covers", "A load covers", p.Covers),
	}
}

func catchFigures(v show.View, r truck.Request, c truck.Catch) []report.Figure {
	figures := []report.Figure{v.Figure("caught_flow", "Flow caught", c.Flow)}
	if c.Rate > 0 {
		figures = append(figures, show.QuietUnless(r.AreaRate == 0, v.Figure("rate_laid", "Laid down on a lane", c.Rate)))
	}
	if c.AreaRate > 0 {
		figures = append(figures, v.Figure("area_rate_laid", "Laid down on an area", c.AreaRate))
	}
	if c.Factor > 0 {
		figures = append(figures,
			v.Figure("flow_factor", "Flow to be multiplied by", quantity.Count(c.Factor)),
			v.Figure("pressure_factor", "that is, nozzle pressure by", quantity.Count(c.Pressure)),
			v.Figure("speed_for_rate", "or the speed to drive", c.SpeedFor))
	}
	return figures
}
