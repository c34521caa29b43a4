package show

import (
	"brineyard/internal/brine"
	"brineyard/internal/chart"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// FreezingChart draws where ice and where salt comes first.
func (v View) FreezingChart(curve []brine.CurvePoint) chart.Chart {
	ice := chart.Series{Name: "ice forms", Mark: 'i', Line: true}
	salt := chart.Series{Name: "salt falls out", Mark: 's', Line: true}
	own := chart.Series{Name: "this liquid", Mark: 'X'}
	for _, p := range curve {
		first := p.Cold.First()
		x, y := 100*float64(p.Strength), TemperatureOf(first).In(v.System).Value
		if p.IsLiquid && first.Found {
			own.Points = append(own.Points, chart.Point{X: x, Y: y})
		}
		if p.Meets { // where the lines end
			at := chart.Point{X: x, Y: y}
			ice.Points, salt.Points = append(ice.Points, at), append(salt.Points, at)
			continue
		}
		if p.Cold.Ice.Found && (first.Solid == solution.Ice || len(salt.Points) == 0) {
			ice.Points = append(ice.Points, chart.Point{X: x, Y: TemperatureOf(p.Cold.Ice).In(v.System).Value})
		}
		if first.Found && first.Solid != solution.Ice && !p.Saturated {
			salt.Points = append(salt.Points, chart.Point{X: x, Y: y})
		}
	}
	return chart.Chart{
		Title:  "What comes first on cooling",
		X:      chart.Axis{Label: "strength, % of salt by weight"},
		Y:      chart.Axis{Label: v.Unit(quantity.Temperature(0))},
		Series: []chart.Series{ice, salt, own},
	}
}
