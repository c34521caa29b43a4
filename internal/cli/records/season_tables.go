package records

import (
	"time"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
)

// seasonTables are all of them, also those without rows.
func seasonTables(v show.View, r season.Report) []report.Table {
	return []report.Table{monthsTable(v, r), stocksTable(v, r), movementsTable(v, r), goneTable(v, r), boughtTable(v, r),
		operatorsTable(v, r), workTable(v, r), paidTable(v, r), routesTable(v, r), cleaningTable(v, r)}
}

func monthsTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "months", Title: "By month and liquid", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "made", Label: "Made"}, {Key: "laid", Label: "Laid"},
		{Key: "salt", Label: "Salt used"}, {Key: "chloride", Label: "Chloride"}, {Key: "water", Label: "Water"}, {Key: "cost", Label: "Cost"},
	}}
	for _, l := range r.Months {
		if l.Made == 0 && l.Laid == 0 && l.Salt == 0 && l.Spread == 0 && l.Water == 0 {
			continue // nothing but a delivery
		}
		t.Rows = append(t.Rows, []report.Value{
			monthValue(l.Month), report.Word(l.Liquid), v.Value(l.Made), v.Value(l.Laid),
			v.Value(l.Salt + l.Spread), v.Value(l.Chlorides), v.Value(l.Water), priced(v, l.Cost),
		})
	}
	return t
}

func monthValue(first time.Time) report.Value { return report.Word(first.Format("2006-01")) }

// priced shows a cost at the yard's prices, if they are known.
func priced(v show.View, m *quantity.Money) report.Value {
	if m == nil {
		return report.Nothing("", "-")
	}
	return v.Value(*m)
}

// boughtTable lists what came of bought liquids, and what was used.
func boughtTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "bought", Title: "Liquids that are bought", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "delivered", Label: "Delivered"}, {Key: "used", Label: "Used"}, {Key: "cost", Label: "Cost"},
	}}
	for _, l := range r.Months {
		if l.Delivered > 0 || l.Used > 0 {
			t.Rows = append(t.Rows, []report.Value{monthValue(l.Month), report.Word(l.Liquid), v.Value(l.Delivered), v.Value(l.Used), priced(v, l.Cost)})
		}
	}
	return t
}

func operatorsTable(_ show.View, r season.Report) report.Table {
	t := report.Table{Key: "operators", Title: "Operators", Columns: []report.Column{
		{Key: "operator", Label: "Operator"}, {Key: "batches", Label: "Batches"}, {Key: "in_band", Label: "In the band"}, {Key: "loads", Label: "Loads"}, {Key: "entries", Label: "Entries"},
	}}
	for _, o := range r.Operators {
		t.Rows = append(t.Rows, []report.Value{report.Word(o.Name), show.Count(o.Batches), show.Count(o.InBand), show.Count(o.Loads), show.Count(o.Entries)})
	}
	return t
}

func routesTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "routes", Title: "Routes", Columns: []report.Column{
		{Key: "route", Label: "Route"}, {Key: "loads", Label: "Loads"}, {Key: "volume", Label: "Laid"}, {Key: "salt", Label: "Dry salt"},
		{Key: "chloride", Label: "Chloride"}, {Key: "per_lane", Label: "On a lane"},
	}}
	for _, route := range r.Routes {
		t.Rows = append(t.Rows, []report.Value{
			report.Word(route.Name), show.Count(route.Loads), v.Value(route.Volume), v.Value(route.Salt),
			v.Value(route.Chlorides), ifKnown(v, route.Rate > 0, route.Rate),
		})
	}
	return t
}

func cleaningTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "cleaning", Title: "Since the last cleaning", Columns: []report.Column{
		{Key: "tank", Label: "Tank"}, {Key: "made_since", Label: "Made"}, {Key: "interval", Label: "Clean every"}, {Key: "left", Label: "Left"},
		{Key: "due", Label: "Due about"}, {Key: "insolubles", Label: "Insolubles"}, {Key: "usual_insolubles", Label: "Cleaned at"},
	}}
	for _, c := range r.Cleanings {
		due := report.Word("-")
		if !c.Date.IsZero() {
			due = report.Word(day(c.Date))
		}
		t.Rows = append(t.Rows, []report.Value{
			report.Word(c.Tank), v.Value(c.Since), ifKnown(v, c.Interval > 0, c.Interval), ifKnown(v, c.Interval > 0, c.Left),
			due, v.Value(c.Insolubles), ifKnown(v, c.Learned > 0, c.Sludge),
		})
	}
	return t
}

// ifKnown shows a quantity, or a dash where it is not known.
func ifKnown(v show.View, known bool, q quantity.Quantity) report.Value {
	if !known {
		return report.Nothing(v.Unit(q), "-")
	}
	return v.Value(q)
}
