package show

import (
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
)

// ExpectedReading is what a percent hydrometer shows in a liquid at a temperature, where
// that is on its scale.
func (v View) ExpectedReading(i gauge.Instrument, t quantity.Temperature, reading float64, onScale bool) report.Figure {
	f := v.Figure("expected_reading", v.Say("Percent hydrometer, at %v", t), i.Scale.Quantity(reading))
	if !onScale {
		f.Value = report.Nothing("%", "off the scale")
	}
	return f
}
