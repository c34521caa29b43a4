package plan

import (
	"fmt"
	"slices"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/storm"
)

// tables are those of a plan. Text has the time line instead of jobs and loads.
func tables(v show.View, low quantity.Temperature, p storm.Plan) []report.Table {
	all := []report.Table{routesTable(v, p), supplyTable(v, p)}
	if len(p.Routes) > mostRows {
		all[0].Long = true
		all = slices.Insert(all, 1, leftOutTable(all[0], p))
	}
	if len(p.Liquids) > 0 {
		all = append(all, liquidsTable(v, p))
	}
	if len(p.Loading.Trucks) > 0 {
		all = append(all, trucksTable(v, p))
	}
	return append(all, coldTable(v, low, p), pavementTable(v, p), jobsTable(v, p), loadsTable(v, p))
}

func routesTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "routes", Title: "Routes, in the order in which they are served", Columns: []report.Column{
		{Key: "route", Label: "Route"}, {Key: "liquid", Label: "Liquid"}, {Key: "lane_length", Label: "Lanes"},
		{Key: "demanded", Label: "Wanted"}, {Key: "served", Label: "Gets"}, {Key: "down_time", Label: "Down"}, {Key: "lacks", Label: "Lacks"},
	}}
	for _, r := range p.Routes {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(r.Route.Name), report.Word(r.Route.Liquid), v.Value(r.LaneLength), v.Value(r.Demanded), v.Value(r.Served), downAt(v, p, r), report.Word(lackWords(r.Lack)),
		})
	}
	late := p.InTime < p.Loaded
	if !late && slices.ContainsFunc(p.Routes, func(r storm.RoutePlan) bool { return r.Meets != nil }) {
		meetsColumn(v, p, &t)
	}
	if late {
		last := len(t.Columns) - 2
		t.Columns = slices.Insert(t.Columns, last, report.Column{Key: "down_in_time", Label: "In time"})
		for i, r := range p.Routes {
			t.Rows[i] = slices.Insert(t.Rows[i], last, v.Value(r.InTime))
		}
	}
	return t
}

// meetsColumn adds the coldest pavement that each route's liquid meets once it is down.
func meetsColumn(v show.View, p storm.Plan, t *report.Table) {
	last := len(t.Columns) - 1
	t.Columns = slices.Insert(t.Columns, last, report.Column{Key: "meets", Label: "Meets"})
	for i, r := range p.Routes {
		value := report.Nothing(v.Unit(quantity.Temperature(0)), "-")
		if r.Meets != nil {
			value = v.Value(r.Meets.Coldest)
		}
		t.Rows[i] = slices.Insert(t.Rows[i], last, value)
	}
}

// pavementTable tells what each route's liquid meets and does there, by the forecast.
func pavementTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "pavement", Title: "Once it is down, by the forecast", Long: true, Columns: []report.Column{
		{Key: "route", Label: "Route"}, {Key: "down_time", Label: "Down"}, {Key: "meets", Label: "Meets"}, {Key: "melts", Label: "Melts"}, {Key: "diluted", Label: "Refreezes at"},
	}}
	for _, r := range p.Routes {
		if r.Meets == nil {
			continue
		}
		melts, diluted := report.Nothing(v.Unit(r.Meets.PerVolume), "-"), report.Nothing("%", "-")
		if r.Meets.PerVolume > 0 {
			melts, diluted = v.Value(r.Meets.PerVolume), v.Value(r.Meets.Diluted)
		}
		t.Rows = append(t.Rows, []report.Value{report.Word(r.Route.Name), downAt(v, p, r), v.Value(r.Meets.Coldest), melts, diluted})
	}
	t.Quiet = len(t.Rows) == 0
	return t
}

// mostRows is the number of routes that a page has room for.
const mostRows = 12

// leftOutTable has the first routes that are not whole in time, where there are too many routes for a page.
func leftOutTable(routes report.Table, p storm.Plan) report.Table {
	const mostLeftOut = 4
	t := report.Table{Key: "left_out", Title: "Routes that are left out, or late, the first of them; markdown has all", Columns: routes.Columns}
	for i, r := range p.Routes {
		if r.Lack != (storm.Lack{}) && len(t.Rows) < mostLeftOut {
			t.Rows = append(t.Rows, routes.Rows[i])
		}
	}
	t.Quiet = len(t.Rows) == 0
	return t
}

// downAt is when the last truck of a route is back.
func downAt(v show.View, p storm.Plan, r storm.RoutePlan) report.Value {
	if r.Served == 0 || len(p.Loading.Loads) == 0 {
		return report.Nothing("min", "-")
	}
	return shortTime(v, r.DownAt)
}

// shortTime is a time of day with how many days it is after the first, as 0:55+1.
func shortTime(v show.View, at quantity.Duration) report.Value {
	value := v.TimeOf(at)
	value.Text = v.Hour(at)
	if days := v.Days(at); days > 0 {
		value.Text += fmt.Sprintf("+%d", days)
	}
	return value
}

// supplyTable lists what stands in store, and what it needs.
func supplyTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "supply", Title: "In store", Columns: []report.Column{
		{Key: "where", Label: "Where"}, {Key: "liquid", Label: "Liquid"}, {Key: "usable", Label: "Usable"},
		{Key: "strength", Label: "Strength"}, {Key: "first_solid_temp", Label: "First solid"}, {Key: "clear", Label: "Clear"}, {Key: "needs", Label: "Needs"},
	}}
	for _, l := range p.Supply {
		strength, needs := report.Nothing("%", "-"), report.Word("nothing")
		if l.Strength > 0 {
			strength = v.Value(l.Strength)
		}
		if l.Fix != nil {
			needs = report.Word("correction")
		}
		if l.Edge {
			needs = report.Word("a finer reading")
		}
		t.Rows = append(t.Rows, []report.Value{
			report.Word(l.Where), report.Word(l.Liquid), v.Value(l.Usable), strength, v.ShortSolid(l.First), report.Word(show.YesNo(l.Clear)), needs,
		})
	}
	return t
}

// liquidsTable compares what the routes take of bought liquids with what there is.
func liquidsTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "liquids", Title: "Liquids that are not made here", Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "wanted", Label: "Wanted"}, {Key: "on_hand", Label: "There is"}, {Key: "short", Label: "Short"},
	}}
	for _, l := range p.Liquids {
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Name), v.Value(l.Wanted), v.Value(l.OnHand), v.Value(max(0, l.Wanted-l.OnHand))})
	}
	t.Long = !slices.ContainsFunc(p.Liquids, func(l storm.LiquidNeed) bool { return l.Wanted > l.OnHand })
	return t
}

// trucksTable sums up each truck's night.
func trucksTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "trucks", Title: "Trucks", Columns: []report.Column{
		{Key: "truck", Label: "Truck"}, {Key: "loads", Label: "Loads"}, {Key: "volume", Label: "Carries"},
		{Key: "first_out", Label: "First out"}, {Key: "last_out", Label: "Last out"}, {Key: "back", Label: "Back"},
	}}
	for _, d := range p.Loading.Trucks {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(d.Truck), v.Value(quantity.Count(d.Loads)), v.Value(d.Volume), v.TimeOf(d.FirstOut), v.TimeOf(d.LastOut), v.TimeOf(d.Back),
		})
	}
	return t
}

// coldTable tells what the low makes of each liquid, and what each melts there.
func coldTable(v show.View, low quantity.Temperature, p storm.Plan) report.Table {
	t := report.Table{Key: "cold", Title: v.Say("At the low of %v", low), Columns: []report.Column{
		{Key: "liquid", Label: "Liquid"}, {Key: "first_solid_temp", Label: "First solid"}, {Key: "clear", Label: "Clear"},
		{Key: "melts", Label: "Melts"}, {Key: "diluted", Label: "Refreezes at"}, {Key: "practice", Label: "In practice"},
	}}
	for _, c := range p.Cold {
		melts, diluted := report.Nothing(v.Unit(c.PerVolume), "-"), report.Nothing("%", "-")
		if c.PerVolume > 0 {
			melts, diluted = v.Value(c.PerVolume), v.Value(c.Diluted)
		}
		t.Rows = append(t.Rows, []report.Value{
			report.Word(c.Liquid), v.ShortSolid(c.First), report.Word(show.YesNo(c.Clear)), melts, diluted, report.Word(show.YesNo(p.Practice)),
		})
	}
	return t
}

func jobsTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "jobs", Title: "Jobs", Long: true, Columns: []report.Column{
		{Key: "job", Label: "Job"}, {Key: "tank", Label: "Tank"}, {Key: "start", Label: "From"}, {Key: "end", Label: "To"}, {Key: "volume", Label: "Volume"},
	}}
	for _, j := range p.Production.Jobs {
		t.Rows = append(t.Rows, []report.Value{report.Word(string(j.Kind)), report.Word(j.What), v.TimeOf(j.Start), v.TimeOf(j.End), v.Value(j.Volume)})
	}
	return t
}

func loadsTable(v show.View, p storm.Plan) report.Table {
	t := report.Table{Key: "loads", Title: "Loads", Long: true, Columns: []report.Column{
		{Key: "truck", Label: "Truck"}, {Key: "route", Label: "Route"}, {Key: "volume", Label: "Load"},
		{Key: "start", Label: "At the pump"}, {Key: "out", Label: "Out"}, {Key: "back", Label: "Back"},
	}}
	for _, l := range p.Loading.Loads {
		t.Rows = append(t.Rows, []report.Value{report.Word(l.Truck), report.Word(l.Route), v.Value(l.Volume), v.TimeOf(l.Start), v.TimeOf(l.Out), v.TimeOf(l.Back)})
	}
	return t
}
