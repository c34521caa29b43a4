package brine

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"

	"github.com/stretchr/testify/require"
)

// By hand: 303 g of salt in 1,000 g of water are 100 x 303 / 1303 = 23.254 %, which a glass at its own 60 F shows; one
// that shows 24 % there reads 0.746 % too high. The scale's half gram is 0.5 x 1000 / 1303^2 = 0.0294 % of the salt and
// 0.5 x 303 / 1303^2 = 0.0089 % of the water.
func TestCheckGlassByHand(t *testing.T) {
	i := gauge.Instrument{Scale: gauge.PercentSalt, Calibration: gauge.DefaultCalibration, Division: 0.005, Offset: 0.003}
	r := GlassTest{
		Sample: Sample{Instrument: i, Thermometer: gauge.UsualThermometer(quantity.US), Reading: 0.24, Temperature: quantity.Fahrenheit(60)},
		Salt:   0.303, Water: 1, WeighedTo: 0.001,
	}
	g, err := CheckGlass(r)
	require.NoError(t, err)
	require.InDelta(t, 0.303/1.303, float64(g.Strength), 1e-12)
	require.InDelta(t, 0.303/1.303, g.Expected, 1e-6)
	require.InDelta(t, 0.24-0.303/1.303, g.Offset, 1e-6)
	require.InDelta(t, 0.0025, g.Sure.Of(PartMark), 1e-12)
	require.InDelta(t, 0.000294, g.Sure.Of(PartSaltWeighed), 3e-6)
	require.InDelta(t, 0.0000892, g.Sure.Of(PartWaterWeighed), 2e-6)
	require.True(t, g.Told())
	require.InDelta(t, g.Sure.Half()/0.95, g.OffsetSure(), 1e-12)
	require.InDelta(t, 2*g.Sure.Half(), g.High()-g.Low(), 1e-12)

	// In water at that temperature a true one shows nothing, and 0.2 % may be a mark misread.
	r.Salt, r.Water, r.Sample.Reading = 0, 0, 0.002
	g, err = CheckGlass(r)
	require.NoError(t, err)
	require.InDelta(t, 0.002, g.Offset, 1e-6)
	require.False(t, g.Told())
	require.InDelta(t, tapWater, g.Sure.Of(PartTapWater), 2e-5)

	r.Sample.Temperature = quantity.Fahrenheit(70)
	_, err = CheckGlass(r)
	faulttest.RequireRefusal(t, err, fault.FieldTemperature, "allowed: up to the 60 F that it is marked for")
	r.Salt, r.Water = 0.6, 1
	_, err = CheckGlass(r)
	faulttest.RequireRefusal(t, err, fault.FieldSalt, "saturated")
	r.Water = 0
	_, err = CheckGlass(r)
	faulttest.RequireRefusal(t, err, fault.FieldSalt, "salt and water above 0")
}

// Near the top of its scale a glass is tried on the marks below.
func TestCheckGlassNearSaturation(t *testing.T) {
	i := gauge.Instrument{Scale: gauge.Salometer, Calibration: gauge.DefaultCalibration, Division: 1}
	r := GlassTest{Sample: Sample{Instrument: i, Reading: 99, Temperature: quantity.Fahrenheit(60)}, Salt: 0.358, Water: 1, WeighedTo: 0.001}
	g, err := CheckGlass(r)
	require.NoError(t, err)
	require.InDelta(t, -0.9, g.Offset, 0.2)
}

func TestCheckThermometer(t *testing.T) {
	g, err := CheckThermometer(quantity.Fahrenheit(33), gauge.UsualThermometer(quantity.US))
	require.NoError(t, err)
	require.InDelta(t, 5.0/9, g.Offset, 1e-9)
	require.InDelta(t, 5.0/9, g.Sure.Of(PartMark), 1e-9)
	require.InDelta(t, iceBath, g.Sure.Of(PartIceBath), 0)
	_, err = CheckThermometer(quantity.Fahrenheit(45), gauge.Thermometer{})
	faulttest.RequireRefusal(t, err, fault.FieldTemperature, "melting ice is at 32 F")
}
