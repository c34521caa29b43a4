// Package show makes the pieces that answers are put together from: quantities in the user's
// units, labelled figures, and the sentences and tables that several commands share.
package show

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// View is how a user sees quantities.
type View struct {
	Midnight time.Time // from which the times of a plan count
	System   quantity.System
	// NumbersOnly leaves the words out, where only programs read the answer.
	NumbersOnly bool
	// Short leaves out of sentences what nobody acts on at a tank, like the names of minerals.
	Short bool
}

// Say puts quantities into a sentence in the user's units.
func (v View) Say(format string, args ...any) string {
	if v.NumbersOnly {
		return ""
	}
	shown := make([]any, len(args))
	for i, a := range args {
		if q, ok := a.(quantity.Quantity); ok {
			a = q.In(v.System)
		}
		shown[i] = a
	}
	return fmt.Sprintf(format, shown...)
}

// Value shows a quantity in the user's units.
func (v View) Value(q quantity.Quantity) report.Value {
	shown := q.In(v.System)
	if math.IsNaN(shown.Value) || math.IsInf(shown.Value, 0) {
		return report.Nothing(shown.Unit, "none")
	}
	if v.NumbersOnly {
		return report.Number(shown.Value, shown.Unit, "")
	}
	return report.Number(shown.Value, shown.Unit, shown.String())
}

// Unit is that of a quantity in the user's system.
func (v View) Unit(q quantity.Quantity) string { return q.In(v.System).Unit }

// Figure is a labelled quantity.
func (v View) Figure(key, label string, q quantity.Quantity) report.Figure {
	return report.Figure{Key: key, Label: label, Value: v.Value(q)}
}

// Inward shows a quantity rounded up (way 1) or down (way -1) in its last digit.
func (v View) Inward(q quantity.Quantity, way float64) string {
	shown := q.In(v.System)
	decimals := quantity.Decimals(shown.Digits())
	unit := math.Pow(10, -float64(decimals))
	if rounded := math.Round(shown.Value/unit) * unit; way*(rounded-shown.Value) < -1e-9*unit {
		shown.Words = shown.Fixed(rounded+way*unit, decimals)
	}
	return shown.String()
}

// Quiet marks a figure that only programs are shown.
func Quiet(f report.Figure) report.Figure {
	f.Quiet = true
	return f
}

// Detail marks figures that a short screen leaves out.
func Detail(figures ...report.Figure) []report.Figure {
	for i := range figures {
		figures[i].Detail = true
	}
	return figures
}

// QuietUnless marks a figure that is of interest on one condition.
func QuietUnless(interesting bool, f report.Figure) report.Figure {
	f.Quiet = !interesting
	return f
}

// scalar is a quantity whose zero can be told.
type scalar interface {
	~float64
	quantity.Quantity
}

// IfAny is a figure of a quantity that is 0 where it was not asked for.
func IfAny[Q scalar](v View, key, label string, q Q) report.Figure {
	if q == 0 {
		return Known[Q](v, key, label, nil)
	}
	return v.Figure(key, label, q)
}

// Known is a figure that may not be known; then it is for programs alone.
func Known[Q quantity.Quantity](v View, key, label string, q *Q) report.Figure {
	if q == nil {
		var none Q
		return Quiet(report.Figure{Key: key, Label: label, Value: report.Nothing(v.Unit(none), "not known")})
	}
	return v.Figure(key, label, *q)
}

// IfKnown is Known for a quantity that comes with whether it is known.
func IfKnown[Q quantity.Quantity](v View, key, label string, q Q, known bool) report.Figure {
	if !known {
		return Known[Q](v, key, label, nil)
	}
	return v.Figure(key, label, q)
}

// OrUnknown shows a quantity, or that it is not known.
func OrUnknown[Q scalar](v View, q Q) report.Value {
	if q == 0 {
		return report.Nothing(v.Unit(q), "?")
	}
	return v.Value(q)
}

// Optional shows a quantity, or nothing.
func Optional[Q quantity.Quantity](v View, q *Q) report.Value {
	if q == nil {
		return report.Nothing("", "")
	}
	return v.Value(*q)
}

// Count shows a whole number.
func Count(n int) report.Value { return report.Number(float64(n), "", strconv.Itoa(n)) }

// Plural counts things.
func Plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// YesNo is a word for a truth.
func YesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

// Steps lists what to do, by number.
func Steps(key, title string, steps []string) report.Table {
	t := report.Table{Key: key, Title: title, Columns: []report.Column{{Key: "step", Label: ""}, {Key: "do", Label: "Do"}}}
	for i, step := range steps {
		t.Rows = append(t.Rows, []report.Value{report.Word(Ordinal(i)), report.Word(step)})
	}
	return t
}

// Ordinal numbers the steps of an instruction, from 0.
func Ordinal(i int) string { return strconv.Itoa(i+1) + "." }
