package storm

import (
	"slices"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// The cold: practice ends at 15 F, and down to there a calcium liquid that is on hand is
// proposed where it melts more.
func TestStormCold(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.31}}, OnHand: 10 * quantity.Gallon}}
	for low, practice := range map[float64]bool{20: true, 15: true, 14: false} {
		r.Low = quantity.Fahrenheit(low)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, practice, p.Practice)
		// Where no liquid is in practice, none is proposed.
		require.Equal(t, practice, p.Better != nil)
		if practice {
			require.Greater(t, p.Better.PerVolume, p.Better.Before)
		}
	}
	r.Low = quantity.Celsius(2)
	p, err := Make(r)
	require.NoError(t, err)
	require.Nil(t, p.Better)
	require.Zero(t, p.Cold[0].PerVolume)
}

// A liquid that drops salt out of brine is not proposed, nor one that melts less.
func TestStormNothingBetter(t *testing.T) {
	for _, c := range []solution.Composition{{CaCl2: 0.4}, {CaCl2: 0.05}, {KCl: 0.2}} {
		r := handYard()
		r.Band = yard.BandAround(0.262)
		r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "other", Composition: c}, OnHand: 10 * quantity.Gallon}}
		p, err := Make(r)
		require.NoError(t, err)
		require.Nil(t, p.Better, "%+v", c)
	}
}

// Brine of 23.3 % stays clear to its eutectic, -6 F (common practice, no source: -21.1
// C), and melts at 20 F until it is as dilute as what freezes there: by the lever, of 1 kg
// with 0.233 of salt.
func TestStormColdByHand(t *testing.T) {
	r := handYard()
	for low, clear := range map[float64]bool{20: true, -4: true, -8: false} {
		r.Low = quantity.Fahrenheit(low)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, clear, p.Cold[0].Clear, "%g F", low)
	}
	r.Low = quantity.Fahrenheit(20)
	p, err := Make(r)
	require.NoError(t, err)
	melted := float64(p.Cold[0].PerVolume / balance.BrineDensity(0.233, r.Temperature))
	require.InEpsilon(t, 0.233, float64(p.Cold[0].Diluted)*(1+melted), 1e-12)
	diluted, err := brine.Freeze(brine.FreezeRequest{
		Liquid: balance.SaltBrine(p.Cold[0].Diluted), StoredAt: quantity.Fahrenheit(60),
	})
	require.NoError(t, err)
	require.InDelta(t, 20, quantity.Temperature(diluted.Cold.Ice.Temperature).Fahrenheit(), 1e-3)
}

// The best of the yard's liquids is proposed, of those on hand that melt a tenth more than
// brine does. A fifth of calcium chloride melts more the stronger it is: 28 % makes 6 %
// more, 32 and 34 % make 14 and 17 (the model's own).
func TestStormBestOfTheLiquids(t *testing.T) {
	r := handYard()
	for _, c := range []struct {
		name     string
		strength float64
		onHand   quantity.Volume
	}{{"a", 0.32, 1}, {"b", 0.34, 1}, {"c", 0.32, 1}, {"a gone", 0.36, 0}} {
		r.Others = append(r.Others, yard.Liquid{Liquid: wild.Calcium(c.strength).Named(c.name), OnHand: c.onHand})
	}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "b", p.Better.Additive)
	require.Len(t, p.Supply, 4) // three on hand, and the tank
	onHand := p.Supply[0]
	require.Equal(t, SupplyLine{Where: "on hand", Liquid: "a", Usable: 1, First: onHand.First, Clear: true}, onHand)
	r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.28).Named("weak"), OnHand: 1}}
	p, err = Make(r)
	require.NoError(t, err)
	require.Nil(t, p.Better)
}

// Each tank is judged at its own strength: at 0 F brine of 20 % has ice in it (from 1.9
// F; the CRC Handbook's -16.46 C), and that of 23.3 % has none.
func TestStormOvernight(t *testing.T) {
	r := handYard()
	r.Low = quantity.Fahrenheit(0)
	weak := r.Tanks[0]
	weak.Name, weak.Liquid = "weak", new(balance.SaltBrine(0.20))
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.4, Temperature: 258}}}
	r.Others = []yard.Liquid{{Liquid: balance.OfProduct("sheet", sheet).Named("sheet"), OnHand: 1}}
	r.Tanks = append(r.Tanks, weak)
	p, err := Make(r)
	require.NoError(t, err)
	lines := map[string]SupplyLine{}
	for _, l := range p.Supply {
		lines[l.Where] = l
	}
	require.True(t, lines["store"].Clear)
	require.False(t, lines["weak"].Clear)
	require.InDelta(t, 273.15-16.46, lines["weak"].First.Temperature, 0.3)
	require.Equal(t, solution.Ice, lines["weak"].First.Solid)
	// A data sheet that ends above the low says nothing of it.
	require.False(t, lines["on hand"].Clear)
	r.Low = quantity.Celsius(-10)
	p, err = Make(r)
	require.NoError(t, err)
	require.True(t, p.Supply[0].Clear)
	require.False(t, p.Supply[0].First.Found)
}

// What a product melts is not known: its data sheet does not tell.
func TestStormProductOnTheRoad(t *testing.T) {
	r := handYard()
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.4, Temperature: 258}}}
	r.Others = []yard.Liquid{{Liquid: balance.OfProduct("sheet", sheet), OnHand: 1}}
	r.Routes[0].Liquid = "sheet"
	p, err := Make(r)
	require.NoError(t, err)
	at := slices.IndexFunc(p.Cold, func(l ColdLine) bool { return l.Liquid == "sheet" })
	require.Zero(t, p.Cold[at].PerVolume)
	require.Zero(t, p.Cold[at].Diluted)
	require.Positive(t, p.Cold[1-at].PerVolume)
}

// A blend is proposed with a warning where salt falls out of it in a tank at the low: a
// fifth of 36 % calcium chloride drops salt at 18.9 F in brine of 23.3 % and at 30 F in brine
// of 24 % (the model's own).
func TestStormBetterDropsSalt(t *testing.T) {
	for _, c := range []struct {
		target quantity.Strength
		low    float64
		drops  bool
	}{{0.233, 20, false}, {0.233, 18, true}, {0.24, 20, true}} {
		r := handYard()
		r.Band, r.Low = yard.BandAround(c.target), quantity.Fahrenheit(c.low)
		r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.36).Named("cal"), OnHand: 1}}
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, c.drops, p.Better.DropsSalt, "%+v", c)
		require.True(t, p.Better.SaltOut.Found)
	}
}
