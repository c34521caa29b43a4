package gauge

import (
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// An instrument that shows too much shows so much more of the same density, on every scale, and its density is that of
// the reading without it.
func TestOffset(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom(Scales()).Draw(t, "scale")
		honest := Instrument{Scale: scale, Calibration: solution.SixtyF}
		off := honest
		off.Offset = rapid.Float64Range(-1, 1).Draw(t, "divisions") * scale.Division()
		w, kelvin := rapid.Float64Range(0.02, 0.25).Draw(t, "strength"), rapid.Float64Range(275, 300).Draw(t, "kelvin")
		rho, err := solution.Density(solution.Brine(w), kelvin)
		require.NoError(t, err)
		want, ok := honest.Reading(rho, kelvin)
		require.True(t, ok)
		got, ok := off.Reading(rho, kelvin)
		require.True(t, ok)
		require.InDelta(t, want+off.Offset, got, 1e-9)
		back, ok := off.Density(got, kelvin)
		require.True(t, ok)
		require.InDelta(t, rho, back, 1e-6)
		near, ok := off.Nearest(rho, kelvin)
		require.True(t, ok)
		require.InDelta(t, got, near, 1e-12)
		mark, ok := off.Mark(got)
		require.True(t, ok)
		sample, ok := off.Sample(mark, kelvin)
		require.True(t, ok)
		require.InDelta(t, rho, sample, 1e-6)
	})
	// Off its scale it shows the end of it, offset and all.
	off := PercentGlass()
	off.Offset = 0.002
	reading, ok := off.Nearest(990, solution.SixtyF)
	require.True(t, ok)
	require.InDelta(t, 0.002, reading, 1e-12)
	reading, ok = off.Nearest(1260, solution.SixtyF)
	require.True(t, ok)
	require.InDelta(t, solution.BrineTop+0.002, reading, 1e-9)
}

// What lies between the marks of the usual instruments. Common practice, no source.
func TestUsualDivisions(t *testing.T) {
	for scale, want := range map[Scale]string{PercentSalt: "0.5%", SpecificGravity: "0.005", Salometer: "1.0 deg", Baume: "0.5 deg", Weighed: "0.02 lb/gal"} {
		require.Equal(t, want, scale.Quantity(scale.Division()).In(quantity.US).String())
	}
	require.InDelta(t, 2*5.0/9, UsualThermometer(quantity.US).Division, 1e-12)
	require.InDelta(t, 1, UsualThermometer(quantity.Metric).Division, 0)
	require.InDelta(t, 283.15, float64(Thermometer{Offset: 0.5}.True(283.65)), 1e-9)
}

// A bare step has the crew's unit: of a weight, that is told by its size.
func TestParseStep(t *testing.T) {
	for _, c := range []struct {
		scale Scale
		sys   quantity.System
		text  string
		want  float64
	}{
		{PercentSalt, quantity.US, "0.5", 0.005}, {PercentSalt, quantity.Metric, "0,5%", 0.005}, {SpecificGravity, quantity.US, "-0.002", -0.002},
		{Salometer, quantity.US, "1", 1}, {Baume, quantity.Metric, "0.5deg", 0.5},
		{Weighed, quantity.US, "0.02", 0.02 * float64(quantity.PoundPerGallon)}, {Weighed, quantity.Metric, "2", 2},
		{Weighed, quantity.Metric, "0.002", 2}, {Weighed, quantity.Metric, "0.02lb/gal", 0.02 * float64(quantity.PoundPerGallon)},
	} {
		got, _, err := c.scale.ParseStep(c.sys, c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, c.want, got, 1e-12, "%v %s", c.scale.Name(), c.text)
	}
	_, _, err := Weighed.ParseStep(quantity.Metric, "heavy")
	require.EqualError(t, err, "not a difference of readings; write it like 0.02lb/gal or 2kg/m3")
}

func TestParseCalibration(t *testing.T) {
	for _, c := range []struct {
		sys  quantity.System
		text string
		want quantity.Temperature
	}{{quantity.US, "60", quantity.Fahrenheit(60)}, {quantity.Metric, "20", quantity.Celsius(20)}, {quantity.US, "20F", quantity.Fahrenheit(20)}, {quantity.US, "15C", quantity.Celsius(15)}} {
		got, _, err := ParseCalibration(c.sys, c.text)
		require.NoError(t, err, c.text)
		require.InDelta(t, float64(c.want), float64(got), 1e-9, c.text)
	}
	_, _, err := ParseCalibration(quantity.Metric, "60")
	require.EqualError(t, err, "no glass is marked for 60 C; allowed: with its unit, like 60F or 60C")
	_, _, err = ParseCalibration(quantity.US, "hot")
	require.Error(t, err)
}
