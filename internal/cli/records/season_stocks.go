package records

import (
	"slices"

	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/season"
	"brineyard/internal/state"
)

// What came into the stock of a liquid, what went out of it, and what happened to it
// otherwise.
var (
	cameIn  = []state.Class{state.Made, state.Delivered, state.Outside, state.PutIn, state.Rinsed, state.Found}
	wentOut = []state.Class{state.Laid, state.Spilled, state.Sold, state.Lent, state.Given, state.Cleaned}
	other   = []state.Class{state.Mixed, state.Counted, state.Read, state.Unexplained, state.Gone}
)

// stocksTable rolls what stood of each liquid from month to month: what stands at the end is
// what stood at the beginning, with the columns between.
func stocksTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "stocks", Title: "What stood, by month and liquid (otherwise: mixed, or found by a count)", Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "opening", Label: "Opening"}, {Key: "in", Label: "Came in"},
		{Key: "out", Label: "Went out"}, {Key: "otherwise", Label: "Otherwise"}, {Key: "standing", Label: "Standing"},
	}}
	for _, s := range r.Stocks {
		if s.Moved == ([state.Classes]quantity.Volume{}) {
			continue // it only stood
		}
		t.Rows = append(t.Rows, []report.Value{
			monthValue(s.Month), report.Word(s.Liquid), v.Value(s.Opening), v.Value(moved(s, cameIn)),
			v.Value(-moved(s, wentOut)), v.Value(moved(s, other)), v.Value(s.Closing),
		})
	}
	return t
}

func moved(s season.Stock, classes []state.Class) quantity.Volume {
	var sum quantity.Volume
	for _, c := range classes {
		sum += s.Moved[c]
	}
	return sum
}

// movementsTable has a row for each month, liquid and way in which it came or went, for
// programs.
func movementsTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "movements", Title: "What moved", Quiet: true, Columns: []report.Column{
		{Key: "month", Label: "Month"}, {Key: "liquid", Label: "Liquid"}, {Key: "how", Label: "How"}, {Key: "volume", Label: "Volume"},
	}}
	for _, s := range r.Stocks {
		for _, row := range movementsOf(s) {
			t.Rows = append(t.Rows, []report.Value{monthValue(s.Month), report.Word(s.Liquid), report.Word(row.how), v.Value(row.volume)})
		}
	}
	for _, l := range r.Months { // between tanks, which changes nothing of what stands
		if l.Moved > 0 {
			t.Rows = append(t.Rows, []report.Value{monthValue(l.Month), report.Word(l.Liquid), report.Word("moved between tanks"), v.Value(l.Moved)})
		}
	}
	return t
}

// movement is how a liquid came to stand there, with its sign, or what stood.
type movement struct {
	how    string
	volume quantity.Volume
}

func movementsOf(s season.Stock) []movement {
	rows := []movement{{"opening", s.Opening}}
	for _, c := range slices.Concat(cameIn, wentOut, other) {
		if s.Moved[c] != 0 {
			rows = append(rows, movement{c.String(), s.Moved[c]})
		}
	}
	return append(rows, movement{"standing", s.Closing})
}

// goneTable lists what left otherwise than on the road, with the chloride in it.
func goneTable(v show.View, r season.Report) report.Table {
	t := report.Table{Key: "gone", Title: "What left otherwise than on the road", Columns: []report.Column{
		{Key: "how", Label: "How"}, {Key: "volume", Label: "Liquid"}, {Key: "salt", Label: "Salt off the pile"}, {Key: "chloride", Label: "Chloride"},
	}}
	for _, c := range []state.Class{state.Spilled, state.Sold, state.Lent, state.Given} {
		if f := r.Flows[c]; f.Volume != 0 || f.Salt != 0 {
			t.Rows = append(t.Rows, []report.Value{report.Word(c.String()), v.Value(-f.Volume), v.Value(-f.Salt), v.Value(f.Chlorides())})
		}
	}
	return t
}
