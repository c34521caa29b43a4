package brine

import (
	"math"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/sure"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func plainBatch() BatchRequest {
	return BatchRequest{
		Volume:     1200 * quantity.Gallon,
		Target:     0.233,
		WaterTemp:  quantity.Fahrenheit(50),
		HeelTemp:   quantity.Fahrenheit(50),
		RockSalt:   yard.PureSalt(),
		Instrument: gauge.PercentGlass(),
	}
}

// Source: worked from CRC Handbook densities (23.3 % at 20 C: 1.1746 g/cm3; water
// 8.330 lb/gal): a gallon of brine takes 2.284 lb of salt and 0.9026 gal of water.
func TestBatchByHandbook(t *testing.T) {
	r := plainBatch()
	r.WaterTemp = quantity.Celsius(22.45) // from which it cools to 20 C
	b, err := NewBatch(r)
	require.NoError(t, err)
	require.InDelta(t, 20, b.BrineTemp.Celsius(), 0.1)
	gallons := float64(r.Volume / quantity.Gallon)
	// The densities agree to 0.05 %, the printed digits to 0.02 %.
	require.InEpsilon(t, 2.284*gallons, float64(b.SaltToLoad/quantity.Pound), 1e-3)
	require.InEpsilon(t, 0.9026*gallons, float64(b.Water/quantity.Gallon), 1e-3)
}

// Source: Iowa DOT news (January 2008): about 2 lb of rock salt for a gallon of
// water. "About" spans 2 to 2.6 lb: their brine, 2.5 lb in this calculation.
func TestSaltForAGallonOfWater(t *testing.T) {
	b, err := NewBatch(plainBatch())
	require.NoError(t, err)
	ratio := float64(b.SaltToLoad/quantity.Pound) / float64(b.Water/quantity.Gallon)
	require.InDelta(t, 2.3, ratio, 0.3)
}

// Common practice, no source: 1,000 gallons through 30 gal/min take 33 minutes.
func TestFillTime(t *testing.T) {
	r := plainBatch()
	r.Supply = 30 * quantity.GallonPerMinute
	b, err := NewBatch(r)
	require.NoError(t, err)
	minutes := float64(b.FillTime / quantity.Minute)
	require.InEpsilon(t, float64(b.Water/quantity.Gallon)/30, minutes, 1e-12)
	require.InDelta(t, 33.3, minutes*1000/float64(b.Water/quantity.Gallon), 0.1)
}

// Dissolving to 23.3 % takes up about 2 kJ/mol of salt, so the batch cools by two
// to three kelvin: from memory, calorimetry puts the integral heat near 2 kJ/mol
// at 5 mol/kg. The heat at infinite dilution is checked in solution.
func TestBatchCools(t *testing.T) {
	b, err := NewBatch(plainBatch())
	require.NoError(t, err)
	require.InDelta(t, 2.6, float64(b.Cooling), 0.4)
	require.InDelta(t, float64(quantity.Fahrenheit(50))-float64(b.Cooling), float64(b.BrineTemp), 1e-9)
}

// drawBatch draws a batch on a heel, with a bed of wet salt.
func drawBatch(t *rapid.T) BatchRequest {
	r := BatchRequest{
		Volume:       quantity.Volume(rapid.Float64Range(0.2, 40).Draw(t, "m3")),
		Target:       quantity.Strength(rapid.Float64Range(0.02, 0.255).Draw(t, "target")),
		HeelStrength: quantity.Strength(rapid.Float64Range(0, 0.255).Draw(t, "heel strength")),
		HeelTemp:     quantity.Celsius(rapid.Float64Range(1, 30).Draw(t, "heel C")),
		WaterTemp:    quantity.Celsius(rapid.Float64Range(3, 30).Draw(t, "water C")),
		Supply:       quantity.Flow(rapid.Float64Range(1e-4, 1e-2).Draw(t, "m3/s")),
		Instrument:   gauge.PercentGlass(),
		RockSalt: yard.RockSalt{
			Purity:   quantity.Strength(rapid.Float64Range(0.85, 1).Draw(t, "purity")),
			Moisture: quantity.Strength(rapid.Float64Range(0, 0.05).Draw(t, "moisture")),
		},
	}
	r.HeelVolume = r.Volume * quantity.Volume(rapid.Float64Range(0, 0.5).Draw(t, "heel"))
	r.Bed = quantity.Mass(rapid.Float64Range(0, 300).Draw(t, "bed")) * quantity.Mass(r.Volume)
	return r
}

// Salt and water that go in, with the heel, are what the brine holds, to 1e-9.
func TestBatchConservesMass(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawBatch(t)
		b, err := NewBatch(r)
		if err != nil {
			return // a heel too strong or too wet, tested below
		}
		answered++
		pure := float64((1 - r.RockSalt.Moisture) * r.RockSalt.Purity)
		salt := quantity.Mass(pure*float64(b.SaltToUse)) + b.HeelMass.Times(r.HeelStrength)
		water := b.WaterMass + b.SaltToLoad.Times(r.RockSalt.Moisture) + b.HeelMass.Times(1-r.HeelStrength)
		near(t, r.Volume.Mass(b.BrineDensity).Times(r.Target), salt, b.BrineMass)
		near(t, r.Volume.Mass(b.BrineDensity).Times(1-r.Target), water, b.BrineMass)
		dry := float64(b.SaltToUse) * float64(1-r.RockSalt.Moisture)
		near(t, quantity.Mass(dry), b.SaltDissolved+b.Insolubles, b.BrineMass)
		// The density is that of the temperature which was found.
		require.InEpsilon(t, float64(balance.BrineDensity(r.Target, b.BrineTemp)), float64(b.BrineDensity), 1e-13)
	})
	require.Positive(t, answered)
}

// Salt for a batch is the dose of the heel with the water in it.
func TestBatchIsADose(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawBatch(t)
		r.Bed = 0
		b, err := NewBatch(r)
		if err != nil {
			return
		}
		answered++
		tank := balance.Vessel{Liquid: balance.SaltBrine(r.HeelStrength), Mass: b.HeelMass}
		tank.Add(balance.Water().Brings(1).Liquid, b.WaterMass)
		thin, _ := tank.Liquid.Strength()
		near(t, b.SaltToUse, r.RockSalt.Addition().Dose(tank.Mass, thin, r.Target), b.BrineMass)
	})
	require.Positive(t, answered)
}

// A hot, large heel under cold water moves the batch's temperature most from one round to
// the next, and it settles all the same.
func TestBatchSettlesOnAHotHeel(t *testing.T) {
	r := plainBatch()
	r.HeelVolume, r.HeelStrength = 0.9*r.Volume, 0.233
	r.WaterTemp, r.HeelTemp = quantity.Celsius(0), quantity.Celsius(50)
	b, err := NewBatch(r)
	require.NoError(t, err)
	require.InEpsilon(t, float64(balance.BrineDensity(r.Target, b.BrineTemp)), float64(b.BrineDensity), 1e-13)
}

// By hand: x = 1 + x/20 has its fixed point at 20/19. What runs away, or is no number, is
// an error.
func TestSettle(t *testing.T) {
	x := 300.0
	require.NoError(t, settle(x, func(float64) float64 { x = 1 + x/20; return x }))
	require.InDelta(t, 20.0/19, x, residual)
	for name, step := range map[string]func(float64) float64{
		"runs away": func(x float64) float64 { return 2 * x },
		"swings":    func(x float64) float64 { return -x },
		"no number": func(float64) float64 { return math.NaN() },
	} {
		rounds := 0
		err := settle(300, func(x float64) float64 { rounds++; return step(x) })
		require.ErrorIs(t, err, errUnsettled, name)
		require.Equal(t, mostRounds, rounds, name)
	}
}

// A batch with no heel and no bed costs the same again.
func TestRechargeEqualsFirstCharge(t *testing.T) {
	r := plainBatch()
	r.RockSalt = yard.RockSalt{Purity: 0.95, Moisture: 0.02}
	b, err := NewBatch(r)
	require.NoError(t, err)
	require.InEpsilon(t, float64(b.SaltToLoad), float64(b.Recharge), 1e-9)
	require.InEpsilon(t, float64(b.Water), float64(b.RechargeWater), 1e-9)
}

func TestBatchRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		field  string
		change func(*BatchRequest)
	}{
		"no volume":     {fault.FieldVolume, func(r *BatchRequest) { r.Volume = 0 }},
		"over capacity": {fault.FieldVolume, func(r *BatchRequest) { r.Capacity = r.Volume / 2 }},
		"saturated":     {fault.FieldTarget, func(r *BatchRequest) { r.Target = 0.27 }},
		"no target":     {fault.FieldTarget, func(r *BatchRequest) { r.Target = 0 }},
		"ice for water": {fault.FieldWaterTemp, func(r *BatchRequest) { r.WaterTemp = quantity.Celsius(-1) }},
		"hot water":     {fault.FieldWaterTemp, func(r *BatchRequest) { r.WaterTemp = quantity.Celsius(80) }},
		"hot heel":      {fault.FieldHeelTemp, func(r *BatchRequest) { r.HeelTemp = quantity.Celsius(80) }},
		"full of heel":  {fault.FieldHeelVolume, func(r *BatchRequest) { r.HeelVolume = r.Volume }},
		"heel too strong": {fault.FieldHeelStrong, func(r *BatchRequest) {
			r.HeelVolume, r.HeelStrength, r.Target = r.Volume*0.95, 0.25, 0.2
		}},
		"heel too weak": {fault.FieldHeelVolume, func(r *BatchRequest) {
			r.HeelVolume, r.HeelStrength, r.Target = r.Volume*0.99, 0.01, 0.25
		}},
		"heel beyond any": {fault.FieldHeelStrong, func(r *BatchRequest) { r.HeelVolume, r.HeelStrength = r.Volume/2, 0.3 }},
		"impure":          {fault.FieldPurity, func(r *BatchRequest) { r.RockSalt.Purity = 0.2 }},
		// Saturated brine at 1 C is weaker than at 10 C, where it was allowed.
		"cools below saturation": {fault.FieldTarget, func(r *BatchRequest) {
			r.WaterTemp, r.HeelTemp, r.Target = quantity.Celsius(0.5), quantity.Celsius(0.5), 0.2631
		}},
	} {
		r := plainBatch()
		c.change(&r)
		_, err := NewBatch(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// Refusals that a batch meets after it was balanced, and of a heel that is part ice.
func TestBatchRefusalsInWords(t *testing.T) {
	for _, c := range []struct {
		field, words string
		change       func(*BatchRequest)
	}{
		// 220,000 lb with 10 % of moisture bring 22,000 lb of water for 1,200 gal.
		{fault.FieldBed, "allowed: a smaller bed than 220,000 lb, or drier salt", func(r *BatchRequest) {
			r.Bed, r.RockSalt.Moisture = 220000*quantity.Pound, 0.1
		}},
		{fault.FieldHeelVolume, "allowed: 0 and above", func(r *BatchRequest) { r.HeelVolume = -1 }},
		{fault.FieldVolume, "allowed: above 0", func(r *BatchRequest) { r.Volume = quantity.Volume(math.Inf(1)) }},
		// CRC Handbook: 10 % brine freezes at -6.56 C, 20.2 F.
		{fault.FieldHeelTemp, "a heel of 10% is part solid there; allowed: from 20.1 F", func(r *BatchRequest) {
			r.HeelVolume, r.HeelStrength, r.HeelTemp = r.Volume/2, 0.1, quantity.Fahrenheit(15)
		}},
		{fault.FieldTarget, "is part solid; allowed: warmer water or heel", func(r *BatchRequest) {
			r.WaterTemp, r.HeelTemp, r.Target = quantity.Celsius(8), quantity.Celsius(8), 0.2634
		}},
	} {
		r := plainBatch()
		c.change(&r)
		_, err := NewBatch(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}

// The batch that only just cannot be is refused for saturation: its solid would be
// within what rounding makes of a temperature. Bisected for, from 20 C up.
func TestBatchAtSaturation(t *testing.T) {
	r := plainBatch()
	r.Target = 0.2643
	low, high := 10.0, 30.0
	for high-low > 1e-4 {
		mid := (low + high) / 2
		r.WaterTemp = quantity.Celsius(mid)
		if _, err := NewBatch(r); err != nil {
			low = mid
		} else {
			high = mid
		}
	}
	r.WaterTemp = quantity.Celsius(high)
	b, err := NewBatch(r)
	require.NoError(t, err)
	full, err := balance.Saturation(b.BrineTemp)
	require.NoError(t, err)
	// 1e-4 K are 1e-8 of strength.
	require.InDelta(t, float64(full), float64(r.Target), 1e-7)
	r.WaterTemp = quantity.Celsius(low)
	_, err = NewBatch(r)
	faulttest.RequireRefusal(t, err, fault.FieldTarget, "where brine is saturated at 26.43%; allowed: up to that")
}

// What a stick leaves open of a heel is water that need not be added, and salt: worked out again at the ends.
func TestRangeOfABatch(t *testing.T) {
	r := BatchRequest{
		Volume: 1000 * quantity.Gallon, Target: 0.233, HeelVolume: 120 * quantity.Gallon, HeelStrength: 0.22,
		HeelTemp: quantity.Fahrenheit(50), WaterTemp: quantity.Fahrenheit(50), RockSalt: yard.PureSalt(), Instrument: gauge.PercentGlass(),
		HeelVolumeHalf: 6 * quantity.Gallon,
	}
	b, err := NewBatch(r)
	require.NoError(t, err)
	span, err := r.Range(b)
	require.NoError(t, err)
	low, high := r, r
	low.HeelVolume -= 0.95 * r.HeelVolumeHalf
	high.HeelVolume += 0.95 * r.HeelVolumeHalf
	most, err := NewBatch(low)
	require.NoError(t, err)
	least, err := NewBatch(high)
	require.NoError(t, err)
	require.InDelta(t, float64(most.Water), float64(span.Water.High), 1e-4*float64(most.Water))
	require.InDelta(t, float64(least.Water), float64(span.Water.Low), 1e-4*float64(most.Water))
	require.InDelta(t, float64(most.SaltToLoad), float64(span.Salt.High), 1e-4*float64(most.SaltToLoad))

	r.HeelVolumeHalf, r.HeelSure = 0, sure.Budget{Mixing: 0.0024}
	span, err = r.Range(b)
	require.NoError(t, err)
	low = r
	low.HeelStrength -= 0.0024
	weak, err := NewBatch(low)
	require.NoError(t, err)
	require.InDelta(t, float64(weak.SaltToLoad), float64(span.Salt.High), 1e-4*float64(weak.SaltToLoad))
}

// A batch of a weight of salt is the batch of the volume that takes so much.
func TestBatchOfSalt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := plainBatch()
		r.HeelVolume = quantity.Gallon * quantity.Volume(rapid.Float64Range(0, 300).Draw(t, "heel"))
		r.HeelStrength = quantity.Strength(rapid.Float64Range(0, 0.25).Draw(t, "strength"))
		r.HeelTemp = r.WaterTemp
		r.RockSalt = yard.RockSalt{Purity: 0.96, Moisture: quantity.Strength(rapid.Float64Range(0, 0.05).Draw(t, "moisture"))}
		salt := quantity.Pound * quantity.Mass(rapid.Float64Range(1500, 4000).Draw(t, "salt"))
		sized, b, err := BatchOfSalt(r, salt)
		require.NoError(t, err)
		require.InEpsilon(t, float64(salt), float64(b.SaltToLoad), 1e-8)
		again, err := NewBatch(sized)
		require.NoError(t, err)
		require.InEpsilon(t, float64(b.Water), float64(again.Water), 1e-9)
	})
	r := plainBatch()
	_, _, err := BatchOfSalt(r, 0)
	faulttest.RequireRefusal(t, err, fault.FieldSalt, "allowed: above 0")
	r.Capacity = 500 * quantity.Gallon
	_, _, err = BatchOfSalt(r, 4000*quantity.Pound)
	faulttest.RequireRefusal(t, err, fault.FieldSalt, "the tank holds")
}

// What no batch is made of is refused by the name of what is wrong.
func TestBatchOfSaltRefusals(t *testing.T) {
	for field, change := range map[string]func(*BatchRequest){
		fault.FieldPurity:     func(r *BatchRequest) { r.RockSalt.Purity = 0 },
		fault.FieldTarget:     func(r *BatchRequest) { r.Target = 0.4 },
		fault.FieldHeelStrong: func(r *BatchRequest) { r.HeelStrength = 0.5 },
	} {
		r := plainBatch()
		change(&r)
		_, _, err := BatchOfSalt(r, 1500*quantity.Pound)
		faulttest.RequireField(t, err, field, field)
	}
}
