package brine

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func halfPercent(shown float64, fahrenheit float64) Sample {
	return Sample{
		Instrument:  gauge.Instrument{Scale: gauge.PercentSalt, Calibration: gauge.DefaultCalibration, Division: 0.005},
		Thermometer: gauge.UsualThermometer(quantity.US), Reading: shown, Temperature: quantity.Fahrenheit(fahrenheit),
	}
}

// The parts by hand, of a percent glass at its own 60 F: half a mark is a quarter of a percent, and a degree F is 0.42
// kg/m3 K x 0.556 K less the glass's 0.016, over 8.2 kg/m3 a percent: 0.026 of a percent. Source of the slopes:
// CRC Handbook, NaCl of 23 and 24 % at 20 C (1.1721 and 1.1804 g/cm3), and from memory the change with temperature.
func TestSurenessByHand(t *testing.T) {
	s := halfPercent(0.233, 60)
	b := Sureness(s.Instrument, s.Thermometer, 0.233, s.Temperature)
	require.InDelta(t, 0.0025, b.Of(PartMark), 1e-6)
	require.InDelta(t, 0.00030, b.Of(PartThermometer), 5e-5)
	require.Len(t, b.Parts, 2)
	s.Instrument.OffsetSure, s.Thermometer.OffsetSure = 0.001, 1
	require.Len(t, Sureness(s.Instrument, s.Thermometer, 0.233, s.Temperature).Parts, 4)
	require.True(t, Sureness(s.Instrument, s.Thermometer, 0.233, quantity.Celsius(-60)).Exact(), "no density is known there")
	require.True(t, Sureness(gauge.PercentGlass(), gauge.Thermometer{}, 0.233, s.Temperature).Exact())
	span := RangeOf(s.Instrument, s.Thermometer, 0.0001, s.Temperature)
	require.Zero(t, span.Low, "no brine is weaker than water")
	// Near saturation one of the marks beside is off the scale.
	require.Greater(t, Sureness(s.Instrument, s.Thermometer, 0.2639, s.Temperature).Of(PartMark), 0.002)
}

// 22.9987 % is on the edge with half-percent marks, and 22.95 % is too weak with marks a hundredth apart and a fine
// thermometer; 23.1 and 24.2 % by a half-percent glass are not averaged, and 23.1 and 23.5 % are.
func TestEdge(t *testing.T) {
	r := CheckRequest{Sample: halfPercent(0.229987, 60), Band: yard.DefaultBand(), Volume: 500 * quantity.Gallon, RockSalt: yard.PureSalt()}
	c, err := Check(r)
	require.NoError(t, err)
	require.Equal(t, yard.OnTheEdge, c.Decision)
	require.Equal(t, yard.TooWeak, c.Best)
	require.False(t, c.Misled())

	r.Sample = halfPercent(0.2295, 60)
	r.Sample.Instrument.Division, r.Sample.Thermometer.Division = 0.0001, 0.1*5/9
	c, err = Check(r)
	require.NoError(t, err)
	require.Equal(t, yard.TooWeak, c.Decision)

	r.Sample = halfPercent(0.231, 60)
	r.Sample.More = []Shown{{0.242, r.Sample.Temperature}}
	_, err = Check(r)
	faulttest.RequireRefusal(t, err, fault.FieldReading, "nothing was averaged")
	r.Sample.More[0].Reading = 0.235
	c, err = Check(r)
	require.NoError(t, err)
	require.InDelta(t, 0.233, float64(c.Reading.True), 1e-6)
	require.Greater(t, c.Reading.Range.Half(), quantity.Strength(0.0025), "two samples are no surer than one")
	r.Sample.More = make([]Shown, 8)
	_, err = Check(r)
	faulttest.RequireRefusal(t, err, fault.FieldReading, "too many samples; allowed: up to 8")
	r.Sample.More = []Shown{{0.9, r.Sample.Temperature}}
	_, err = Check(r)
	faulttest.RequireRefusal(t, err, fault.FieldReading, "no salt brine")
}

// What is safe on the edge: added to a tank of any strength in the range, it leaves it in the band.
func TestSafeAmounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shown := rapid.Float64Range(0.226, 0.245).Draw(t, "shown")
		r := CheckRequest{Sample: halfPercent(shown, 60), Band: yard.DefaultBand(), Volume: 500 * quantity.Gallon, Capacity: 520 * quantity.Gallon, RockSalt: yard.PureSalt()}
		c, err := Check(r)
		require.NoError(t, err)
		if c.Safe.Additive == AnyAdditive {
			return
		}
		require.Equal(t, yard.OnTheEdge, c.Decision)
		w := rapid.Float64Range(float64(c.Reading.Range.Low), float64(c.Reading.Range.High)).Draw(t, "really")
		tank, err := balance.Fill(balance.SaltBrine(quantity.Strength(w)), r.Volume, r.Sample.Temperature)
		require.NoError(t, err)
		tank.Add(balance.SaltBrine(0), c.Safe.Water.Mass(c.Safe.AddDensity))
		tank.Add(balance.SaltBrine(1), c.Safe.Salt)
		then, plain := tank.Liquid.Strength()
		require.True(t, plain)
		require.Equal(t, yard.MayPump, r.Band.Judge(then), "%v becomes %v", w, then)
	})
	// A band narrower than the range has no amount that is safe either way, and a full tank no room for one.
	r := CheckRequest{Sample: halfPercent(0.2299, 60), Band: yard.Band{Target: 0.232, Low: 0.23, High: 0.233}, Volume: 500 * quantity.Gallon, RockSalt: yard.PureSalt()}
	c, err := Check(r)
	require.NoError(t, err)
	require.Equal(t, AnyAdditive, c.Safe.Additive)
	r.Band, r.Capacity = yard.DefaultBand(), r.Volume
	c, err = Check(r)
	require.NoError(t, err)
	require.Equal(t, AnyAdditive, c.Safe.Additive)
}

// The range of an amount holds what the ends of the strength need, and grows with what is not known of the volume.
func TestShareOfAnAmount(t *testing.T) {
	w := wild.New(3)
	for range 300 {
		s := halfPercent(0.15+0.1*w.Float64(), 45)
		read, err := Reading(s)
		require.NoError(t, err)
		r := CorrectRequest{Volume: 500 * quantity.Gallon, Strength: read.True, Temperature: s.Temperature, Target: 0.233, RockSalt: yard.PureSalt(), Instrument: s.Instrument, Sure: read.Sure}
		c, err := Correct(r)
		require.NoError(t, err)
		require.LessOrEqual(t, c.Share.Low, 1.0)
		require.GreaterOrEqual(t, c.Share.High, 1.0)
		r.Strength = read.Range.Low
		low, err := Correct(r)
		require.NoError(t, err)
		if c.Additive == AddSalt && low.Additive == AddSalt {
			require.InDelta(t, float64(low.Salt), float64(c.Salt)*c.Share.High, 1e-9*float64(low.Salt))
		}
		r.Strength, r.VolumeHalf = read.True, 20*quantity.Gallon
		wider, err := Correct(r)
		require.NoError(t, err)
		require.GreaterOrEqual(t, wider.Share.High, c.Share.High)
		if float64(r.Strength) < 0.2 { // where the volume counts beside the strength
			require.Greater(t, wider.Share.High, c.Share.High)
		}
	}
	first, err := FirstSolid(0.228)
	require.NoError(t, err)
	require.True(t, first.Found)
}
