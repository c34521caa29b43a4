package brine

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func storing(lots ...Lot) StoreRequest {
	return StoreRequest{Lots: lots, Temperature: quantity.Fahrenheit(60), Instrument: gauge.PercentGlass()}
}

func gallons(v float64, s quantity.Strength) Lot {
	return Lot{Volume: quantity.Volume(v) * quantity.Gallon, Liquid: balance.SaltBrine(s)}
}

// Common practice, no source: one 500-gallon batch at 25 % moves 20,000 gallons of
// 23.3 % by less than 0.1 %.
func TestOneBatchHardlyMovesALargeTank(t *testing.T) {
	out, err := Store(storing(gallons(20000, 0.233), gallons(500, 0.25)))
	require.NoError(t, err)
	s, plain := out.Now.Liquid.Strength()
	require.True(t, plain)
	require.Greater(t, s, quantity.Strength(0.233))
	require.Less(t, float64(s)-0.233, 0.001)
}

// By hand, CRC densities at 20 C (23 %: 1.1721, 25 %: 1.1887 g/cm3): 6000 and 800
// parts are 7032.6 and 950.96, with 1617.5 and 237.74 of salt.
func TestStoreByHandbook(t *testing.T) {
	r := storing(gallons(6000, 0.23), gallons(800, 0.25))
	r.Temperature = quantity.Celsius(20)
	out, err := Store(r)
	require.NoError(t, err)
	s, _ := out.Now.Liquid.Strength()
	require.InDelta(t, (1617.5+237.74)/(7032.6+950.96), float64(s), 2e-5)
}

// Each batch on its own, or all in turn: the same tank, with all mass in it.
func TestBatchesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "batches")
		tank := gallons(rapid.Float64Range(100, 20000).Draw(t, "gal"), quantity.Strength(rapid.Float64Range(0, 0.26).Draw(t, "tank")))
		batch := gallons(rapid.Float64Range(10, 2000).Draw(t, "batch gal"), quantity.Strength(rapid.Float64Range(0, 0.26).Draw(t, "batch")))
		r := storing(tank, batch)
		r.Batches = n
		out, err := Store(r)
		require.NoError(t, err)
		require.Len(t, out.Each, n)
		require.Equal(t, out.Now, out.Each[n-1])

		lots := []Lot{tank}
		salt, mass := 0.0, 0.0
		for i := range n + 1 {
			lot := batch
			if i == 0 {
				lot = tank
			} else {
				lots = append(lots, batch)
			}
			rho, err := lot.Liquid.Density(r.Temperature)
			require.NoError(t, err)
			m := float64(lot.Volume.Mass(rho))
			mass += m
			salt += m * lot.Liquid.Composition.NaCl
		}
		again, err := Store(storing(lots...))
		require.NoError(t, err)
		require.InEpsilon(t, float64(again.Now.Volume), float64(out.Now.Volume), 1e-12)
		require.InEpsilon(t, mass, float64(out.Now.Volume.Mass(out.Density)), 1e-9)
		require.InDelta(t, salt, out.Now.Liquid.Composition.NaCl*mass, 1e-9*mass)
	})
}

// What is said to bring it to target does.
func TestStoreCorrectionReachesTarget(t *testing.T) {
	r := storing(gallons(6000, 0.224))
	r.Target, r.With, r.Capacity = 0.233, 0.255, 8000*quantity.Gallon
	out, err := Store(r)
	require.NoError(t, err)
	c := out.Correction
	require.Positive(t, c.DrawOffFirst)
	left := Lot{Volume: 6000*quantity.Gallon - c.DrawOffFirst, Liquid: balance.SaltBrine(0.224)}
	after, err := Store(storing(left, Lot{Volume: c.Stock, Liquid: balance.SaltBrine(0.255)}))
	require.NoError(t, err)
	s, _ := after.Now.Liquid.Strength()
	require.InDelta(t, 0.233, float64(s), 1e-12)
	require.InEpsilon(t, float64(r.Capacity), float64(after.Now.Volume), 1e-12)
}

func TestStoreFits(t *testing.T) {
	r := storing(gallons(600, 0.23), gallons(500, 0.25))
	for capacity, want := range map[quantity.Volume]bool{0: true, 1000 * quantity.Gallon: false, 1200 * quantity.Gallon: true} {
		r.Capacity = capacity
		out, err := Store(r)
		require.NoError(t, err)
		require.Equal(t, want, out.Fits)
	}
}

func TestStoreRefusals(t *testing.T) {
	plain := func() StoreRequest { return storing(gallons(6000, 0.23), gallons(500, 0.25)) }
	for name, c := range map[string]struct {
		field  string
		change func(*StoreRequest)
	}{
		"no volume":      {fault.FieldParts, func(r *StoreRequest) { r.Lots[1].Volume = 0 }},
		"beyond any":     {fault.FieldParts, func(r *StoreRequest) { r.Lots[1].Liquid = balance.SaltBrine(0.3) }},
		"hot":            {fault.FieldTemperature, func(r *StoreRequest) { r.Temperature = quantity.Celsius(70) }},
		"many batches":   {fault.FieldBatches, func(r *StoreRequest) { r.Batches = 1001 }},
		"fewer than one": {fault.FieldBatches, func(r *StoreRequest) { r.Batches = -1 }},
		"nothing to add": {fault.FieldBatches, func(r *StoreRequest) { r.Batches, r.Lots = 2, r.Lots[:1] }},
		"blend to target": {fault.FieldTarget, func(r *StoreRequest) {
			r.Lots[1].Liquid, r.Target, r.With = wild.Calcium(0.32), 0.233, 0.25
		}},
		"over full": {fault.FieldCapacity, func(r *StoreRequest) {
			r.Capacity, r.Target, r.With = 6100*quantity.Gallon, 0.233, 0.25
		}},
		"weak with": {fault.FieldWith, func(r *StoreRequest) { r.Target, r.With = 0.24, 0.235 }},
	} {
		r := plain()
		c.change(&r)
		_, err := Store(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// A refusal names the lot, or the mix, that does not stay dissolved, and a target that
// no brine has is refused as a target.
func TestStoreRefusalsInWords(t *testing.T) {
	for _, c := range []struct {
		field, words string
		lots         []Lot
		to, with     quantity.Strength
	}{
		// Chloride of the one drives salt out of the other.
		{fault.FieldParts, "not all of the mix stays dissolved at 60 F", []Lot{gallons(5000, 0.26), {Volume: 1, Liquid: wild.Calcium(0.4)}}, 0, 0},
		{fault.FieldParts, "not all of brine stays dissolved at 60 F", []Lot{gallons(5000, 0.28)}, 0, 0},
		{fault.FieldTarget, "allowed: 0% to 26.39% (saturated)", []Lot{gallons(6000, 0.23)}, 0.28, 0.29},
		{fault.FieldWith, "allowed: stock above 24%", []Lot{gallons(6000, 0.23)}, 0.24, 0.235},
		{fault.FieldWith, "allowed: stock below 22%", []Lot{gallons(6000, 0.23)}, 0.22, 0.235},
	} {
		r := storing(c.lots...)
		r.Target, r.With = c.to, c.with
		_, err := Store(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}

// Batches are of the last lot alone, as many as a table can show; a tank is full, not
// over full, at its capacity.
func TestStoreBatchesOfTheLastLot(t *testing.T) {
	r := storing(gallons(5000, 0.233), gallons(700, 0.233), gallons(1, 0.233))
	r.Batches, r.Capacity = mostBatches, 6700*quantity.Gallon
	out, err := Store(r)
	require.NoError(t, err)
	require.Len(t, out.Each, mostBatches)
	// 5,000 + 700 + 1,000; the same brine keeps its volume, to rounding of 1,000 sums.
	require.InEpsilon(t, 6700, float64(out.Now.Volume/quantity.Gallon), 1e-11)
	require.InEpsilon(t, 5701, float64(out.Each[0].Volume/quantity.Gallon), 1e-11)

	full := storing(gallons(1000, 0.233))
	full.Capacity = 1000 * quantity.Gallon
	out, err = Store(full)
	require.NoError(t, err)
	require.True(t, out.Fits)
	full.Capacity *= 1 - 1e-9
	out, err = Store(full)
	require.NoError(t, err)
	require.False(t, out.Fits)
}

// The range of a mix by hand: 6,000 gal read to 0.24 % and 800 gal of which nothing is open leave 6,000 parts in
// 6,800 of that, near enough by volume; a stick that is 2 % off moves the mix as far as the first lot lies from
// it.
func TestRangeOfAMix(t *testing.T) {
	tank, batch := gallons(6000, 0.231), gallons(800, 0.25)
	tank.StrengthHalf = 0.0024
	out, err := Store(storing(tank, batch))
	require.NoError(t, err)
	require.InDelta(t, 0.0024*6000/6800, float64(out.Range.Half()), 0.0024*0.005)

	tank.StrengthHalf, tank.VolumeHalf = 0, tank.Volume/50
	out, err = Store(storing(tank, batch))
	require.NoError(t, err)
	w, _ := out.Now.Liquid.Strength()
	more := tank
	more.Volume += tank.VolumeHalf
	beside, err := Store(storing(more, batch))
	require.NoError(t, err)
	there, _ := beside.Now.Liquid.Strength()
	require.InDelta(t, float64(w-there), float64(out.Range.Half())/0.95, 2e-6)
	low, high := out.Volumes(storing(tank, batch))
	require.InDelta(t, 0.95*0.04*float64(tank.Volume), float64(high-low), 1e-9)
}
