package brine

import (
	"math"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fiveHundred is the batch of the trade's own rules of thumb, at 60 F.
func fiveHundred(strength quantity.Strength) CorrectRequest {
	return CorrectRequest{
		Volume:      500 * quantity.Gallon,
		Strength:    strength,
		Target:      0.233,
		Temperature: quantity.Fahrenheit(60),
		RockSalt:    yard.PureSalt(),
		Instrument:  gauge.PercentGlass(),
	}
}

// Common practice, no source: a 500-gallon batch at 26 % needs 50 to 70 gallons
// of water to come to 23.3 %.
func TestStrongBatchTakesWater(t *testing.T) {
	c, err := Correct(fiveHundred(0.26))
	require.NoError(t, err)
	require.Equal(t, AddWater, c.Additive)
	require.GreaterOrEqual(t, c.Water, 50*quantity.Gallon)
	require.LessOrEqual(t, c.Water, 70*quantity.Gallon)
}

// The same by hand: CRC densities at 20 C (26 %: 1.1972, 23.3 % interpolated:
// 1.1746 g/cm3) and water 0.9982. 500 gal x 1.1972 x (26/23.3 - 1) / 0.9982.
func TestStrongBatchByHandbook(t *testing.T) {
	r := fiveHundred(0.26)
	r.Temperature = quantity.Celsius(20)
	c, err := Correct(r)
	require.NoError(t, err)
	require.InEpsilon(t, 500*1.1972*(26/23.3-1)/0.9982, float64(c.Water/quantity.Gallon), 2e-3)
	require.InEpsilon(t, 500*1.1972*26/23.3/1.1746, float64(c.Final/quantity.Gallon), 2e-3)
}

// drawCorrection draws a request that can be met, by any additive.
func drawCorrection(t *rapid.T) CorrectRequest {
	r := CorrectRequest{
		Volume:      quantity.Volume(rapid.Float64Range(0.05, 50).Draw(t, "m3")),
		Strength:    quantity.Strength(rapid.Float64Range(0, 0.262).Draw(t, "strength")),
		Target:      quantity.Strength(rapid.Float64Range(0.01, 0.262).Draw(t, "target")),
		Temperature: quantity.Celsius(rapid.Float64Range(0.2, 45).Draw(t, "C")),
		Stock:       quantity.Strength(rapid.Float64Range(0, 0.262).Draw(t, "stock")),
		With:        rapid.SampledFrom([]Additive{AnyAdditive, AddWater, AddSalt, AddStock}).Draw(t, "with"),
		Instrument:  gauge.PercentGlass(),
		RockSalt: yard.RockSalt{
			Purity:   quantity.Strength(rapid.Float64Range(0.8, 1).Draw(t, "purity")),
			Moisture: quantity.Strength(rapid.Float64Range(0, 0.1).Draw(t, "moisture")),
		},
	}
	if rapid.Bool().Draw(t, "capacity known") {
		r.Capacity = r.Volume * quantity.Volume(rapid.Float64Range(1, 1.5).Draw(t, "capacity"))
	}
	return r
}

// What is in the tank, less what is drawn off, plus what is added, is what there
// is afterwards: of brine and of salt, to 1e-9.
func TestCorrectionConservesMass(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawCorrection(t)
		c, err := Correct(r)
		if err != nil {
			return // refusals have a test of their own
		}
		answered++
		before, tank := r.Volume.Mass(c.TankDensity), r.carryOut(t, c)
		near(t, c.Final.Mass(c.EndDensity), tank.Mass, before)
		near(t, c.Final.Mass(c.EndDensity).Times(c.Strength), quantity.Mass(tank.Masses().NaCl), before)
		if r.Capacity > 0 {
			require.LessOrEqual(t, float64(c.Final), float64(r.Capacity)*(1+1e-12))
		}
		require.GreaterOrEqual(t, float64(c.DrawOffFirst), 0.0)
		require.Less(t, float64(c.DrawOffFirst), float64(r.Volume))
	})
	require.Greater(t, answered, 20)
}

// carryOut draws off and adds what a correction says, and returns what is in the tank then.
func (r CorrectRequest) carryOut(t require.TestingT, c Correction) balance.Vessel {
	tank, err := balance.Fill(balance.SaltBrine(r.Strength), r.Volume, r.Temperature)
	require.NoError(t, err)
	_, err = tank.DrawVolume(c.DrawOffFirst, r.Temperature)
	require.NoError(t, err)
	added := map[Additive]balance.Vessel{
		AddWater: balance.Water().Brings(c.Water.Mass(c.AddDensity)),
		AddStock: balance.Stock(r.Stock).Brings(c.Stock.Mass(c.AddDensity)),
		AddSalt:  r.RockSalt.Addition().Brings(c.Salt),
	}[c.Additive]
	tank.Add(added.Liquid, added.Mass)
	return tank
}

func near(t require.TestingT, want, got, scale quantity.Mass) {
	require.InDelta(t, float64(want), float64(got), 1e-9*float64(scale))
}

// A correction, carried out, leaves nothing to correct.
func TestCorrectionReachesTarget(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawCorrection(t)
		c, err := Correct(r)
		if err != nil || c.Additive == AnyAdditive {
			return
		}
		answered++
		r.Volume, r.Strength, r.With = c.Final, c.Strength, AnyAdditive
		again, err := Correct(r)
		require.NoError(t, err)
		require.Equal(t, AnyAdditive, again.Additive)
		require.Zero(t, again.Water+again.Stock)
		require.Zero(t, again.Salt)
	})
	require.Greater(t, answered, 20)
}

// Every additive that only makes it worse is refused, and says which field.
func TestCorrectionRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		strength quantity.Strength
		with     Additive
		stock    quantity.Strength
		field    string
	}{
		"water on weak":        {0.21, AddWater, 0, fault.FieldWith},
		"salt on strong":       {0.25, AddSalt, 0, fault.FieldWith},
		"weak stock on weak":   {0.21, AddStock, 0.22, fault.FieldStock},
		"same stock on weak":   {0.21, AddStock, 0.233, fault.FieldStock},
		"strong stock on more": {0.25, AddStock, 0.24, fault.FieldStock},
		"stock beyond any":     {0.21, AddStock, 0.3, fault.FieldStock},
		"tank beyond any":      {0.3, AnyAdditive, 0, fault.FieldStrength},
	} {
		r := fiveHundred(c.strength)
		r.With, r.Stock = c.with, c.stock
		_, err := Correct(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// What no tank can be is refused with what is allowed.
func TestCorrectionOfNoTank(t *testing.T) {
	for _, c := range []struct {
		field, words string
		change       func(*CorrectRequest)
	}{
		{fault.FieldTemperature, "allowed: -13 F to 122 F", func(r *CorrectRequest) { r.Temperature = quantity.Celsius(51) }},
		{fault.FieldVolume, "nothing to correct", func(r *CorrectRequest) { r.Volume = 0 }},
		{fault.FieldVolume, "allowed: up to 499 gal", func(r *CorrectRequest) { r.Capacity = 499 * quantity.Gallon }},
		{fault.FieldCalibration, "no glass is marked for that", func(r *CorrectRequest) { r.Instrument.Calibration = 0 }},
		{fault.FieldPurity, "allowed: 50% to 100%", func(r *CorrectRequest) { r.RockSalt.Purity = 0.2 }},
		{fault.FieldTarget, "no target; allowed: above 0%", func(r *CorrectRequest) { r.Target = 0 }},
		{fault.FieldTarget, "allowed: 0% to 26.39% (saturated)", func(r *CorrectRequest) { r.Target = 0.27 }},
	} {
		r := fiveHundred(0.25)
		c.change(&r)
		_, err := Correct(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}

// The ends of what is allowed are allowed, in either unit: 122 F comes out of the
// conversion a digit above 50 C, and -70 C a digit below the end of the model.
func TestEndsOfTemperature(t *testing.T) {
	for _, end := range []quantity.Temperature{
		quantity.Fahrenheit(122), quantity.Celsius(50), quantity.Fahrenheit(-13), quantity.Celsius(-25),
	} {
		require.NoError(t, fault.CheckTemperature(fault.FieldTemperature, end), "%v", float64(end))
	}
	for _, beyond := range []quantity.Temperature{quantity.Fahrenheit(122.01), quantity.Fahrenheit(-13.01), quantity.Temperature(math.NaN())} {
		faulttest.RequireRefusal(t, fault.CheckTemperature(fault.FieldTemperature, beyond), fault.FieldTemperature, "allowed: -13 F to 122 F")
	}
	for _, end := range []quantity.Temperature{quantity.Celsius(-70), quantity.Fahrenheit(-94), quantity.Celsius(40), quantity.Fahrenheit(104)} {
		r := asked(solution.Brine(0.1))
		r.At = end
		f, err := Freeze(r)
		require.NoError(t, err, "%v", float64(end))
		require.Equal(t, end > 300, f.Stand.Pumpable)
	}
}
