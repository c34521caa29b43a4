package brine

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// scales are all instruments, marked for 60 F.
var scales = []gauge.Scale{gauge.PercentSalt, gauge.SpecificGravity, gauge.Salometer, gauge.Baume, gauge.Weighed}

// What an instrument is expected to show stands for the strength it was expected
// for, to 1e-6, on every scale.
func TestExpectedIsTheInverseOfReading(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i := gauge.Instrument{
			Scale:       rapid.SampledFrom(scales).Draw(t, "scale"),
			Calibration: float64(quantity.Celsius(rapid.Float64Range(5, 25).Draw(t, "cal"))),
		}
		s := quantity.Strength(rapid.Float64Range(0.03, 0.255).Draw(t, "strength")) // weaker stands off a cold scale
		temp := quantity.Celsius(rapid.Float64Range(-5, 40).Draw(t, "C"))
		shown, err := Expected(i, s, temp)
		require.NoError(t, err)
		got, err := Reading(Sample{Instrument: i, Reading: shown, Temperature: temp})
		require.NoError(t, err)
		require.InDelta(t, float64(s), float64(got.True), 1e-6)
		require.False(t, got.Clamped)
	})
}

// Source: 23.3 % at 40 F and 80 F, worked from the density formula and the glass:
// 22.65 and 24.0, given to a hundredth and a tenth.
func TestTemperatureCorrection(t *testing.T) {
	for fahrenheit, want := range map[float64]float64{40: 0.2265, 60: 0.233, 80: 0.240} {
		r, err := Reading(Sample{Instrument: gauge.PercentGlass(), Reading: 0.233, Temperature: quantity.Fahrenheit(fahrenheit)})
		require.NoError(t, err)
		require.InDelta(t, want, float64(r.True), 0.0005, "%g F", fahrenheit)
		require.InDelta(t, 0.233, float64(r.Apparent), 1e-9)
	}
}

// The same without our density formula: Simion's (2015; testdata/published) has
// 1177.14 kg/m3 for 23.3 % at 15 C and 1179.58 at 10 C, 1172.12 at 25 C. A brine
// of 23.3 % at 60 F on a hydrometer marked for 15 C, against its own densities at
// 10 and 25 C and its slope of 8.19 kg/m3 a percent.
func TestTemperatureCorrectionByAnotherFormula(t *testing.T) {
	i := gauge.Instrument{Scale: gauge.PercentSalt, Calibration: float64(quantity.Celsius(15))}
	for celsius, rho := range map[float64]float64{10: 1179.58, 25: 1172.12} {
		floats := 1177.14 / (1 + 25e-6*(celsius-15))
		want := 23.3 + (floats-rho)/8.19
		r, err := Reading(Sample{Instrument: i, Reading: 0.233, Temperature: quantity.Celsius(celsius)})
		require.NoError(t, err)
		// The two formulas differ by up to 0.45 kg/m3, which is 0.06 %.
		require.InDelta(t, want, 100*float64(r.True), 0.07, "%g C", celsius)
	}
}

// A weighing has no glass in it: its calibration does not matter.
func TestWeighingNeedsNoCalibration(t *testing.T) {
	s := Sample{Instrument: gauge.Instrument{Scale: gauge.Weighed, Calibration: gauge.DefaultCalibration}, Reading: 1170, Temperature: quantity.Celsius(5)}
	r, err := Reading(s)
	require.NoError(t, err)
	require.Equal(t, quantity.Density(1170), r.Density)
	require.Equal(t, quantity.Density(1170), r.MarkDensity)
}

// Just beyond fresh water and saturation a reading passes as that; further off it
// is refused.
func TestEndsOfTheScale(t *testing.T) {
	for _, c := range []struct {
		reading float64
		want    quantity.Strength
		ok      bool
	}{
		{0.0005, 0, true},
		{-0.001, 0, false},
		{0.2715, 0.2633, true},
		{0.2760, 0, false},
	} {
		r, err := Reading(Sample{Instrument: gauge.PercentGlass(), Reading: c.reading, Temperature: quantity.Fahrenheit(40)})
		if !c.ok {
			faulttest.RequireField(t, err, fault.FieldReading, "")
			continue
		}
		require.NoError(t, err, "%+v", c)
		require.True(t, r.Clamped, "%+v", c)
		require.InDelta(t, float64(c.want), float64(r.True), 1e-4, "%+v", c)
	}
}

// Brine below its own freezing point is part ice, and the answer says so.
func TestSampleWithIce(t *testing.T) {
	for fahrenheit, want := range map[float64]bool{12: true, 30: false} {
		r, err := Reading(Sample{Instrument: gauge.PercentGlass(), Reading: 0.1, Temperature: quantity.Fahrenheit(fahrenheit)})
		require.NoError(t, err)
		require.Equal(t, want, r.Solid, "%g F", fahrenheit)
	}
}

// A strength scale ends where its marks end: fresh water that is warmer than the glass
// was marked for stands at 0, brine at its top at 28 %, which is 28 / 0.26395 degrees.
func TestExpectedAtTheEndOfTheMarks(t *testing.T) {
	for _, c := range []struct {
		scale    gauge.Scale
		strength quantity.Strength
		celsius  float64
		want     float64
	}{
		{gauge.PercentSalt, 0, 40, 0},
		{gauge.Salometer, 0, 40, 0},
		{gauge.PercentSalt, 0.28, 1, 0.28},
		{gauge.Salometer, 0.28, 1, 28 / 0.26395},
	} {
		got, err := Expected(gauge.Instrument{Scale: c.scale, Calibration: gauge.DefaultCalibration}, c.strength, quantity.Celsius(c.celsius))
		require.NoError(t, err)
		require.InDelta(t, c.want, got, 1e-8, "%+v", c)
	}
	_, err := Expected(gauge.Instrument{Scale: gauge.PercentSalt}, 0.2, quantity.Celsius(10)) // marked for 0 K
	faulttest.RequireRefusal(t, err, fault.FieldCalibration, "no glass is marked for that; allowed: -31 F to 140 F")
	_, err = Expected(gauge.PercentGlass(), 0.2, quantity.Celsius(61))
	faulttest.RequireRefusal(t, err, fault.FieldTemperature, "allowed: -31 F to 140 F")
	_, err = Expected(gauge.PercentGlass(), 0.6, quantity.Celsius(10))
	faulttest.RequireRefusal(t, err, fault.FieldStrength, "allowed: 0% to 50%")
}

// Off every scale the ends are told in its own unit. By CRC Handbook densities: water
// has 999.7 kg/m3 at 10 C, 8.343 lb/gal and a gravity of 1.0007 against 60 F.
func TestReadingOffTheScale(t *testing.T) {
	for scale, c := range map[gauge.Scale]struct {
		readings [2]float64
		words    string
	}{
		gauge.PercentSalt:     {[2]float64{-0.1, 0.29}, "allowed: 0.08% (fresh water) to 26.72% (saturated)"},
		gauge.SpecificGravity: {[2]float64{0.97, 1.3}, "allowed: 1.001 (fresh water) to 1.206 (saturated)"},
		gauge.Salometer:       {[2]float64{-3, 110}, "allowed: 0.3 deg (fresh water) to 101.2 deg (saturated)"},
		gauge.Baume:           {[2]float64{-5, 35}, "allowed: 0.1 deg (fresh water) to 24.8 deg (saturated)"},
		gauge.Weighed:         {[2]float64{900, 1300}, "allowed: 8.34 lb/gal (fresh water) to 10.06 lb/gal (saturated)"},
	} {
		for _, reading := range c.readings {
			i := gauge.Instrument{Scale: scale, Calibration: gauge.DefaultCalibration}
			_, err := Reading(Sample{Instrument: i, Reading: reading, Temperature: quantity.Celsius(10)})
			faulttest.RequireRefusal(t, err, fault.FieldReading, c.words)
		}
	}
}

// What a glass marked for hot brine shows in strong cold brine is beyond any brine at
// its own temperature: the apparent strength stays at the end, the true one is found.
func TestApparentBeyondTheMarks(t *testing.T) {
	i := gauge.Instrument{Scale: gauge.SpecificGravity, Calibration: float64(quantity.Celsius(50))}
	shown, err := Expected(i, 0.26, quantity.Celsius(0))
	require.NoError(t, err)
	r, err := Reading(Sample{Instrument: i, Reading: shown, Temperature: quantity.Celsius(0)})
	require.NoError(t, err)
	require.Equal(t, quantity.Strength(solution.BrineTop), r.Apparent)
	require.InDelta(t, 0.26, float64(r.True), 1e-9)
}

// What is shown is the reading on its own scale.
func TestSampleShown(t *testing.T) {
	s := Sample{Instrument: gauge.Instrument{Scale: gauge.SpecificGravity}, Reading: 1.18}
	require.Equal(t, quantity.SpecificGravity(1.18), s.Shown())
}
