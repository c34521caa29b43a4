package show

import (
	"math"
	"strings"

	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// rounded is a quantity with no more digits than it is known to.
type rounded struct {
	quantity.Quantity
	half quantity.Quantity
	// more are digits beyond the first of what it is unsure by, whatever the quantity's own.
	more int
}

// In shows the decimals down to the first digit of what it is unsure by, and none that the quantity does
// not have.
func (r rounded) In(sys quantity.System) quantity.Shown {
	shown, half := r.Quantity.In(sys), math.Abs(r.half.In(sys).Value)
	if !(half > 0) || math.IsInf(half, 0) || shown.Words != "" {
		return shown
	}
	most := shown.Decimals(finest(shown.Value))
	decimals := int(math.Ceil(-math.Log10(half)-1e-9)) + r.more
	if decimals = max(0, decimals); decimals < most || r.more > 0 {
		if shown.Words = shown.Fixed(shown.Value, decimals); strings.Trim(shown.Words, "-0.") == "" {
			shown.Words = "0" // nothing is written one way
		}
	}
	return shown
}

// finest is a value of about the same size whose decimals are not 0.
func finest(x float64) float64 { return math.Trunc(x) + math.Copysign(0.123456, x) }

// Sure shows a quantity with the digits that are known of it, where it is known within half either way.
func (v View) Sure(q, half quantity.Quantity) quantity.Quantity { return rounded{q, half, 0} }

// Fine is Sure with one digit more, for what a test of an instrument finds (JCGM 100:2008, 7.2.6: two
// significant digits of an uncertainty at most).
func (v View) Fine(q, half quantity.Quantity) quantity.Quantity { return rounded{q, half, 1} }

// Range shows the two ends of a range with one unit: "22.4 to 22.9%".
func (v View) Range(low, high, half quantity.Quantity) string {
	return v.span(v.Sure(low, half), v.Sure(high, half))
}

// FineRange is Range with one digit more.
func (v View) FineRange(low, high, half quantity.Quantity) string {
	return v.span(v.Fine(low, half), v.Fine(high, half))
}

func (v View) span(low, high quantity.Quantity) string {
	from, to := low.In(v.System), high.In(v.System)
	if from.Digits() == to.Digits() {
		return to.String()
	}
	return from.Digits() + " to " + to.String()
}

// Between is FineRange after "between": "-0.05 and 0.45%".
func (v View) Between(low, high, half quantity.Quantity) string {
	return v.Fine(low, half).In(v.System).Digits() + " and " + v.Fine(high, half).In(v.System).String()
}

// True shows the strength behind a reading with the digits that are known of it.
func (v View) True(r brine.ReadingResult) quantity.Quantity {
	return v.Sure(r.True, r.Half)
}

// TrueRange shows the range of the strength behind a reading.
func (v View) TrueRange(r brine.ReadingResult) string {
	return v.Range(r.Range.Low, r.Range.High, r.Half)
}

// AmountRange shows the range of the amount that a correction adds.
func (v View) AmountRange(c brine.Correction) string {
	switch c.Additive {
	case brine.AddWater:
		return rangeOf(v, c.Water, c)
	case brine.AddStock:
		return rangeOf(v, c.Stock, c)
	default:
		return rangeOf(v, c.Salt, c)
	}
}

func rangeOf[Q scalar](v View, q Q, c brine.Correction) string {
	low, high := ShareOf(q, c.Share.Low), ShareOf(q, c.Share.High)
	return v.Range(low, high, (high-low)/2)
}

// Ranged adds its range to the text of a figure, and the ends as figures for programs.
func Ranged[Q scalar](v View, f report.Figure, low, high Q) []report.Figure {
	half := (high - low) / 2
	if half > 0 && !v.NumbersOnly && !f.Quiet {
		f.Value.Text += " (" + v.Range(low, high, half) + ")"
	}
	return []report.Figure{
		f,
		Quiet(v.Figure(f.Key+"_low", f.Label+", low end", low)),
		Quiet(v.Figure(f.Key+"_high", f.Label+", high end", high)),
	}
}
