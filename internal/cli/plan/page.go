package plan

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
	"brineyard/internal/truck"
	"brineyard/internal/yard"
)

// drivers is the sheet for the drivers: for each truck its loads in order.
func drivers(v show.View, r storm.Request, p storm.Plan) []report.Table {
	var all []report.Table
	for _, day := range p.Loading.Trucks {
		t := report.Table{Key: "truck_" + day.Truck, Title: v.Say("%s: %v, %v in all, back at %s", day.Truck,
			show.Plural(day.Loads, "load", "loads"), day.Volume, v.Clock(day.Back)), Columns: []report.Column{
			{Key: "start", Label: "Load"}, {Key: "route", Label: "Route"}, {Key: "liquid", Label: "Liquid"},
			{Key: "volume", Label: "Takes"}, {Key: "rate", Label: "Rate"}, {Key: "speed", Label: "Speed"}, {Key: "setting", Label: "Setting"},
		}}
		for _, l := range p.Loading.Loads {
			if l.Truck == day.Truck {
				t.Rows = append(t.Rows, driverRow(v, r, p, l))
			}
		}
		all = append(all, t)
	}
	return all
}

func driverRow(v show.View, r storm.Request, p storm.Plan, l storm.TruckLoad) []report.Value {
	var route yard.Route
	for _, planned := range p.Routes {
		if planned.Route.Name == l.Route {
			route = planned.Route
		}
	}
	var speed quantity.Speed
	for _, t := range r.Trucks {
		if t.Name == l.Truck {
			speed = truck.SpeedOf(t)
		}
	}
	rate, setting := rateAndSetting(v, route, speed)
	return []report.Value{shortTime(v, l.Start), report.Word(l.Route), report.Word(route.Liquid), v.Value(l.Volume), rate, v.Value(speed), setting}
}

// rateAndSetting are a route's rate, and what the boom gives at the truck's speed, or the salt that is pre-wetted.
func rateAndSetting(v show.View, r yard.Route, speed quantity.Speed) (rate, setting report.Value) {
	switch {
	case r.Prewet > 0:
		return v.Value(r.Prewet), v.Value(r.SaltRate)
	case r.Area > 0:
		return v.Value(r.AreaRate), report.Word("by area")
	}
	return v.Value(r.Rate), v.Value(quantity.Flow(float64(r.Rate) * float64(speed)))
}
