package records

import (
	"math"
	"time"

	"brineyard/internal/chart"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/season"
	"brineyard/internal/yard"
)

// seasonCharts draw the strength of each batch, and what was made in each month. One batch
// makes no chart.
func seasonCharts(v show.View, r season.Report, band yard.Band) []chart.Chart {
	if len(r.Batches) < 2 {
		return nil
	}
	return []chart.Chart{batchesChart(r, band), monthsChart(v, r)}
}

func batchesChart(r season.Report, band yard.Band) chart.Chart {
	across := func(name string, mark byte, w quantity.Strength) chart.Series {
		y := 100 * float64(w)
		return chart.Series{Name: name, Mark: mark, Line: true, Points: []chart.Point{{X: 1, Y: y}, {X: float64(len(r.Batches)), Y: y}}}
	}
	batches := chart.Series{Name: "batch", Mark: 'o'}
	for i, b := range r.Batches {
		batches.Points = append(batches.Points, chart.Point{X: float64(i + 1), Y: 100 * float64(b.Strength)})
	}
	const beyond = 0.1 // percent, for the lines of the band to lie within the frame
	return chart.Chart{
		Title: "Strength of each batch, true", X: chart.Axis{Label: "batch", Whole: true},
		Y:      chart.Axis{Label: "% salt", Also: []float64{100*float64(band.Low) - beyond, 100*float64(band.High) + beyond}},
		Series: []chart.Series{across("lowest to pump", '-', band.Low), across("highest", '=', band.High), across("target", '.', band.Target), batches},
	}
}

func monthsChart(v show.View, r season.Report) chart.Chart {
	c := chart.Chart{Title: "Made in each month", Y: chart.Axis{Label: v.Unit(quantity.Gallon)}}
	form := "Jan"
	if n := len(r.Months); n > 0 && r.Months[n-1].Month.Sub(r.Months[0].Month) > 330*24*time.Hour {
		form = "Jan 06"
	}
	for _, l := range r.Months {
		name := l.Month.Format(form)
		if n := len(c.Bars); n == 0 || c.Bars[n-1].Label != name {
			c.Bars = append(c.Bars, chart.Bar{Label: name})
		}
		c.Bars[len(c.Bars)-1].Value += math.Max(0, l.Made.In(v.System).Value)
	}
	return c
}
