package brine

import (
	"testing"

	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// 4,200 lb of salt crystals are 4,200 / 18.07 = 232 gal, by the density of 2,165 kg/m3 (18.07 lb/gal): beside the brine of a bed
// that stays, they leave no room for a full tank.
func TestBatchRoomByHand(t *testing.T) {
	r := BatchRequest{Volume: 1200 * quantity.Gallon, Target: 0.233, WaterTemp: quantity.Fahrenheit(60), RockSalt: yard.PureSalt(), Bed: 4200 * quantity.Pound,
		Capacity: 1350 * quantity.Gallon, HeelStrength: 0.233, HeelTemp: quantity.Fahrenheit(60), Instrument: gauge.PercentGlass()}
	b, err := NewBatch(r)
	require.NoError(t, err)
	require.ErrorContains(t, b.CheckRoom(r), "before the salt dissolves it takes")
	r.Bed = 0
	b, err = NewBatch(r)
	require.NoError(t, err)
	require.NoError(t, b.CheckRoom(r))
	// 1,200 gal of 23.3 % weigh 11,787 lb: 2,746 lb of salt are 152 gal, 9,041 lb of water 1,084 gal.
	require.InDelta(t, 152+1084, float64(b.Undissolved(r)/quantity.Gallon), 3)
	r.Bed, r.BedCapacity = 4200*quantity.Pound, 4000*quantity.Pound
	require.ErrorContains(t, b.CheckRoom(r), "the floor holds")
}

// A tank that holds it all before it dissolves is large enough, and one a twentieth smaller is not.
func TestBatchRoomFits(t *testing.T) {
	rapid.Check(t, func(d *rapid.T) {
		r := BatchRequest{
			Volume: quantity.Volume(rapid.Float64Range(500, 2000).Draw(d, "volume")) * quantity.Gallon, Target: 0.233, WaterTemp: quantity.Fahrenheit(50),
			RockSalt: yard.RockSalt{Purity: 0.96, Moisture: 0.02}, HeelStrength: 0.233, HeelTemp: quantity.Fahrenheit(50), Instrument: gauge.PercentGlass(),
			HeelVolume: quantity.Volume(rapid.Float64Range(0, 100).Draw(d, "heel")) * quantity.Gallon,
		}
		b, err := NewBatch(r)
		require.NoError(d, err)
		r.Capacity = quantity.Volume(0.95 * float64(b.Undissolved(r)))
		require.Error(d, b.CheckRoom(r))
		r.Capacity = b.Undissolved(r)
		require.NoError(d, b.CheckRoom(r))
	})
}
