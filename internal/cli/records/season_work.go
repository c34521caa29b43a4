package records

import (
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
)

// workTable lists hours and distances by month, person and truck.
func workTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "work", Title: "Work and driving", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "operator", Label: "Operator"}, {Key: "truck", Label: "Truck"}, {Key: "hours", Label: "Hours"}, {Key: "distance", Label: "Driven"},
	}}
	for _, w := range r.Work {
		t.Rows = append(t.Rows, []report.Value{
			monthValue(w.Month), orDash(w.Operator), orDash(w.Truck), hoursValue(&w.Hours), v.Value(w.Distance),
		})
	}
	return t
}

func orDash(word string) report.Value {
	value := report.Word(word)
	if word == "" {
		value.Text = "-"
	}
	return value
}

// paidTable lists what was paid, by what for.
func paidTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "paid", Title: "Paid, as recorded (a sale brings it)", Columns: []report.Column{
		{Key: "for", Label: "For"}, {Key: "liquid", Label: "Liquid"}, {Key: "money", Label: "Money"},
	}}
	for _, p := range r.PaidFor {
		t.Rows = append(t.Rows, []report.Value{report.Word(string(p.Kind)), orDash(p.Liquid), v.Value(p.Money)})
	}
	return t
}

// workFigures are hours and distance, and what they cost at the yard's prices.
func workFigures(v show.View, r season.Report) []report.Figure {
	if r.Hours == 0 && r.Distance == 0 {
		return nil
	}
	return []report.Figure{
		{Key: "hours", Label: "Hours worked", Value: hoursValue(&r.Hours)},
		v.Figure("distance", "Driven", r.Distance),
		show.Known(v, "labour", "Hours at the yard's price", moneyOf(r.Hours > 0, r.Labour)),
		show.Known(v, "driving", "Driving at the yard's price", moneyOf(r.Distance > 0, r.Driving)),
	}
}

// moneyOf leaves out the price of nothing.
func moneyOf(any bool, m *quantity.Money) *quantity.Money {
	if !any {
		return nil
	}
	return m
}
