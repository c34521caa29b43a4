package brine

import (
	"slices"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func plant() CapabilityRequest {
	price := quantity.PricePerMass(0.08)
	return CapabilityRequest{
		WorkingVolume: 1200 * quantity.Gallon, PumpOff: 1000 * quantity.Gallon, MixTime: 40 * quantity.Minute,
		Supply: 30 * quantity.GallonPerMinute, PumpFlow: 100 * quantity.GallonPerMinute,
		WaterTemp: quantity.Fahrenheit(50), Target: 0.233, RockSalt: yard.PureSalt(),
		Bucket: 1000 * quantity.Pound, Pile: 20000 * quantity.Pound, SaltPrice: &price, CleanEvery: 40000 * quantity.Gallon,
	}
}

// By hand, from CRC densities (2.284 lb of salt and 0.9026 gal of water a gallon at
// 20 C; the batch is colder and 0.6 % denser): 1,000 gal take 2,297 lb and 908 gal;
// at 30 gal/min that is 30 min, and 10 min to pump off.
func TestPlantByHand(t *testing.T) {
	p, err := CanDo(plant())
	require.NoError(t, err)
	require.InEpsilon(t, 2297, float64(p.SaltABatch/quantity.Pound), 2e-3)
	require.InEpsilon(t, 30.2, float64(p.Fill/quantity.Minute), 5e-3)
	require.InEpsilon(t, 10, float64(p.PumpOffTime/quantity.Minute), 1e-12)
	require.InEpsilon(t, 80.2, float64(p.Cycle/quantity.Minute), 3e-3)
	require.InEpsilon(t, 1000/80.2, float64(p.AnHour/quantity.GallonPerMinute), 3e-3)
	require.Equal(t, 8, p.Batches)
	require.InEpsilon(t, 8000, float64(p.FromPile/quantity.Gallon), 1e-12)
	require.Equal(t, 40, p.Clean)
	require.InEpsilon(t, 2.297, p.Buckets, 2e-3)
	require.InEpsilon(t, 0.08*2.297*0.45359237/3.785411784e-3, float64(p.SaltCost), 2e-3)
}

// What is not known is not answered.
func TestPlantOfUnknowns(t *testing.T) {
	r := CapabilityRequest{WorkingVolume: 1, WaterTemp: quantity.Celsius(10), Target: 0.233, RockSalt: yard.PureSalt()}
	p, err := CanDo(r)
	require.NoError(t, err)
	require.Zero(t, p.Cycle+p.Fill+p.PumpOffTime)
	require.Zero(t, p.Batches+p.Clean)
	require.False(t, p.Priced)
	require.Zero(t, p.SaltCost)
	require.Equal(t, quantity.Volume(1), p.PumpOff)
	r.Target = 0.3
	_, err = CanDo(r)
	faulttest.RequireField(t, err, fault.FieldTarget, "saturated")
}

// By hand. A tank that fills in 30 min, mixes in 40 and pumps 1,000 gal off in 10 makes
// 12.5 gal/min. Two of them would hold the pump for 2 x 50 of 80 min, more than there
// is: 1,000 gal each 50 min are 20 gal/min. Two that fill in 60 min and hold the pump
// for 10 wait for the water: 1,000 gal each 60 min. One without a cycle adds nothing.
func TestTogether(t *testing.T) {
	perMinute := func(gallons, minutes float64) quantity.Flow {
		return quantity.Flow(gallons/minutes) * quantity.GallonPerMinute
	}
	mixing := Capability{Fill: 30 * quantity.Minute, Cycle: 80 * quantity.Minute, AnHour: perMinute(1000, 80)}
	filling := Capability{Fill: 60 * quantity.Minute, Cycle: 70 * quantity.Minute, AnHour: perMinute(1000, 70)}
	for name, c := range map[string]struct {
		plants []Capability
		want   float64 // gal/min
	}{
		"none":             {nil, 0},
		"not known":        {[]Capability{{AnHour: 1}}, 0},
		"alone":            {[]Capability{mixing, {}}, 12.5},
		"share the pump":   {[]Capability{mixing, mixing}, 20},
		"share the supply": {[]Capability{filling, filling}, 1000.0 / 60},
		// Pump 50/80 + 10/70, supply 30/80 + 60/70 = 1.232: the supply decides.
		"one of each": {[]Capability{mixing, filling}, (12.5 + 1000.0/70) / (30.0/80 + 60.0/70)},
	} {
		require.InDelta(t, c.want, float64(SharedFlow(c.plants)/quantity.GallonPerMinute), 1e-9, name)
	}
}

// By hand. A tank that fills in 30 min, holds the pump for 50 and gives 1,000 gal makes 12.5
// gal/min. One that fills in 5 min, holds the pump for 100 and gives 105 gal makes 1. Both
// would hold the pump for 50/80 + 100/105 = 1.577 of the time and make 13.5/1.577 = 8.56: the
// first makes more alone.
func TestSlowTankIsLeftOut(t *testing.T) {
	perMinute := func(gallons, minutes float64) quantity.Flow {
		return quantity.Flow(gallons/minutes) * quantity.GallonPerMinute
	}
	mixing := Capability{Fill: 30 * quantity.Minute, Cycle: 80 * quantity.Minute, AnHour: perMinute(1000, 80)}
	filling := Capability{Fill: 60 * quantity.Minute, Cycle: 70 * quantity.Minute, AnHour: perMinute(1000, 70)}
	slow := Capability{Fill: 5 * quantity.Minute, Cycle: 105 * quantity.Minute, AnHour: perMinute(105, 105)}
	for name, c := range map[string]struct {
		plants []Capability
		run    []int
		want   float64 // gal/min
	}{
		"none":       {nil, nil, 0},
		"not known":  {[]Capability{{}, mixing}, []int{1}, 12.5},
		"slow last":  {[]Capability{mixing, slow}, []int{0}, 12.5},
		"slow first": {[]Capability{slow, {}, mixing}, []int{2}, 12.5},
		"equal":      {[]Capability{slow, slow}, []int{0, 1}, 2 / (200.0 / 105)},
		"of three":   {[]Capability{filling, slow, mixing}, []int{0, 2}, (12.5 + 1000.0/70) / (30.0/80 + 60.0/70)},
	} {
		require.Equal(t, c.run, TanksToRun(c.plants), name)
		require.InDelta(t, c.want, float64(SharedFlow(c.plants)/quantity.GallonPerMinute), 1e-9, name)
	}
}

// A further tank never makes the yard slower, and no tank alone is faster than the yard.
func TestFurtherTankNeverSlows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var plants []Capability
		for range rapid.IntRange(1, 6).Draw(t, "tanks") {
			fill := quantity.Duration(rapid.Float64Range(1, 300).Draw(t, "fill")) * quantity.Minute
			pump := quantity.Duration(rapid.Float64Range(1, 300).Draw(t, "pump")) * quantity.Minute
			volume := rapid.Float64Range(10, 5000).Draw(t, "volume")
			p := Capability{Fill: fill, Cycle: fill + pump, AnHour: quantity.Flow(volume / float64(fill+pump))}
			before := SharedFlow(plants)
			plants = append(plants, p)
			require.GreaterOrEqual(t, float64(SharedFlow(plants)), float64(before)*(1-1e-8))
			require.GreaterOrEqual(t, float64(SharedFlow(plants)), float64(p.AnHour)*(1-1e-8))
		}
	})
}

// A yard of many mixing tanks is answered at once.
func TestManyTanks(t *testing.T) {
	plants := slices.Repeat([]Capability{{Fill: 30 * quantity.Minute, Cycle: 80 * quantity.Minute, AnHour: 1}}, 2000)
	require.Len(t, TanksToRun(plants), mostTanks)
}
