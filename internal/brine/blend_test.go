package brine

import (
	"math"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// eighty is the trade's blend by volume: 80 parts of brine, 20 of 32 % calcium
// chloride.
func eighty(base quantity.Strength) BlendRequest {
	return BlendRequest{
		Parts:       []Part{{Liquid: balance.SaltBrine(base), Amount: 80}, {Liquid: wild.Calcium(0.32), Amount: 20}},
		Temperature: quantity.Fahrenheit(60),
		Instrument:  gauge.PercentGlass(),
	}
}

// Common practice, no source: the 80/20 blend of 23.3 % brine has its ice point
// near -15 F. Salt falls out of it near +9 F; made from 21.5 % brine it stays clear
// to about -8 F (the model's own, anchored).
func TestEightyTwenty(t *testing.T) {
	for base, want := range map[quantity.Strength]struct{ ice, salt float64 }{
		0.233: {-15, 9},
		0.215: {-10, -8},
	} {
		b, err := NewBlend(eighty(base))
		require.NoError(t, err)
		require.InDelta(t, want.ice, fahrenheit(b.Cold.Ice.Temperature), 1, "%v", base)
		require.InDelta(t, want.salt, fahrenheit(b.Cold.Salt.Temperature), 1, "%v", base)
		require.Equal(t, solution.Hydrohalite, b.Cold.First().Solid)
	}
}

// By hand, CRC Handbook densities at 20 C (23.3 % NaCl 1.1746, 32 % CaCl2 1.3036
// g/cm3): 80 x 1.1746 + 20 x 1.3036 = 120.04 parts, 21.895 of NaCl, 8.343 of CaCl2.
func TestEightyTwentyByHand(t *testing.T) {
	r := eighty(0.233)
	r.Temperature = quantity.Celsius(20)
	b, err := NewBlend(r)
	require.NoError(t, err)
	require.InDelta(t, 21.895/120.04, b.Liquid.Composition.NaCl, 2e-4)
	require.InDelta(t, 8.343/120.04, b.Liquid.Composition.CaCl2, 2e-4)
	chloride := (21.895*35.453/58.443 + 8.343*70.906/110.984) / 120.04
	require.InEpsilon(t, chloride, float64(b.Chloride)/float64(b.Density), 1e-3)
}

// drawBlend draws a blend of two to four parts in which everything dissolves.
func drawBlend(t *rapid.T) BlendRequest {
	r := BlendRequest{
		Temperature: quantity.Celsius(rapid.Float64Range(0, 30).Draw(t, "C")),
		ByWeight:    rapid.Bool().Draw(t, "by weight"),
		Instrument:  gauge.PercentGlass(),
	}
	most := map[solution.Salt]float64{solution.NaCl: 0.25, solution.KCl: 0.2, solution.CaCl2: 0.33, solution.MgCl2: 0.3}
	for range rapid.IntRange(2, 4).Draw(t, "parts") {
		salt := solution.Salt(rapid.IntRange(0, 3).Draw(t, "salt"))
		w := rapid.Float64Range(0, most[salt]).Draw(t, "strength")
		price := quantity.PricePerVolume(rapid.Float64Range(0, 2000).Draw(t, "price"))
		r.Parts = append(r.Parts, Part{
			Liquid: balance.Liquid{Name: salt.String(), Composition: solution.Pure(salt, w)},
			Amount: rapid.Float64Range(0.1, 100).Draw(t, "amount"),
			Price:  &price,
		})
	}
	return r
}

// What goes in comes out: each salt and the water, to 1e-9; and the amounts have
// the shares that were asked for.
func TestBlendConservesMass(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawBlend(t)
		b, err := NewBlend(r)
		if err != nil {
			return // salt falls out where they meet: refused
		}
		answered++
		total := float64(b.Total.Mass(b.Density))
		mass, salts, cost := 0.0, [4]float64{}, 0.0
		for i, p := range r.Parts {
			rho, err := p.Liquid.Density(r.Temperature)
			require.NoError(t, err)
			m := float64(b.Amounts[i].Mass(rho))
			mass += m
			for s := range salts {
				salts[s] += m * p.Liquid.Composition.Fraction(solution.Salt(s))
			}
			cost += float64(*p.Price) * float64(b.Amounts[i])
			share := float64(b.Amounts[i] / b.Amounts[0])
			if r.ByWeight {
				first, err := r.Parts[0].Liquid.Density(r.Temperature)
				require.NoError(t, err)
				share *= float64(rho / first)
			}
			require.InEpsilon(t, p.Amount/r.Parts[0].Amount, share, 1e-9)
		}
		require.InEpsilon(t, total, mass, 1e-9)
		for s := range salts {
			require.InDelta(t, b.Liquid.Composition.Fraction(solution.Salt(s))*total, salts[s], 1e-9*total)
		}
		require.InDelta(t, float64(b.Cost)*float64(b.Total), cost, 1e-6)
	})
	require.Positive(t, answered)
}

// The order of the parts makes no difference.
func TestBlendOrder(t *testing.T) {
	answered := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawBlend(t)
		forward, err := NewBlend(r)
		if err != nil {
			return
		}
		answered++
		for i, j := 0, len(r.Parts)-1; i < j; i, j = i+1, j-1 {
			r.Parts[i], r.Parts[j] = r.Parts[j], r.Parts[i]
		}
		back, err := NewBlend(r)
		require.NoError(t, err)
		require.InEpsilon(t, float64(forward.Density), float64(back.Density), 1e-12)
		requireSame(t, forward.Liquid.Composition, back.Liquid.Composition)
		require.InDelta(t, forward.Cold.Ice.Temperature, back.Cold.Ice.Temperature, 1e-5)
		require.InDelta(t, float64(forward.Heat), float64(back.Heat), 1) // of some 1e7 J/m3
	})
	require.Greater(t, answered, 50)
}

func requireSame(t require.TestingT, a, b solution.Composition) {
	for s := range 4 {
		require.InDelta(t, a.Fraction(solution.Salt(s)), b.Fraction(solution.Salt(s)), 1e-14)
	}
}

// A liquid blended with itself is the same liquid, neither warmed nor cooled.
func TestBlendWithItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(0, 0.25).Draw(t, "strength")
		r := BlendRequest{Temperature: quantity.Celsius(10), Instrument: gauge.PercentGlass(), Parts: []Part{
			{Liquid: balance.SaltBrine(quantity.Strength(w)), Amount: rapid.Float64Range(1, 9).Draw(t, "a")},
			{Liquid: balance.SaltBrine(quantity.Strength(w)), Amount: rapid.Float64Range(1, 9).Draw(t, "b")},
		}}
		b, err := NewBlend(r)
		require.NoError(t, err)
		strength, plain := b.Liquid.Strength()
		require.True(t, plain)
		require.InDelta(t, w, float64(strength), 1e-15)
		require.InDelta(t, 0, float64(b.Heat), 1)
		require.InDelta(t, float64(r.Temperature), float64(b.FinalTemp), 1e-6)
	})
}

// A blend with a product has an estimated ice point, colder than the brine's, and no
// heat; its density is that of its volumes.
func TestProductInBlend(t *testing.T) {
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{
		{Solute: 0.1, Temperature: 268.5}, {Solute: 0.3, Temperature: 250}, {Solute: 0.42, Temperature: 228},
	}}
	r := eighty(0.2)
	r.Parts = append(r.Parts[:1], Part{Liquid: balance.OfProduct("sheet", sheet), Amount: 10}, Part{Liquid: balance.OfProduct("sheet", sheet), Amount: 10})
	b, err := NewBlend(r)
	require.NoError(t, err)
	require.Len(t, b.Liquid.Products, 1)
	require.True(t, b.Cold.Estimated)
	require.False(t, b.Cold.Salt.Found)
	require.False(t, b.HeatKnown)
	require.Zero(t, b.Heat)
	require.Zero(t, b.FinalTemp)
	require.False(t, b.Priced)
	require.Zero(t, b.Cost)
	alone, err := Freeze(asked(solution.Brine(0.2)))
	require.NoError(t, err)
	require.Less(t, b.Cold.Ice.Temperature, alone.Cold.Ice.Temperature)
	rho, err := balance.SaltBrine(0.2).Density(r.Temperature)
	require.NoError(t, err)
	require.InEpsilon(t, 0.8*float64(rho)+0.2*1280, float64(b.Density), 1e-9)
	require.False(t, math.IsNaN(b.Cold.Ice.Temperature))
}

// A part of none is not in the blend: with none of a product the brine is plain.
func TestPartOfNone(t *testing.T) {
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
	r := eighty(0.2)
	r.Parts[1] = Part{Liquid: balance.OfProduct("sheet", sheet)}
	b, err := NewBlend(r)
	require.NoError(t, err)
	require.Empty(t, b.Liquid.Products)
	require.False(t, b.Cold.Estimated)
	require.True(t, b.HeatKnown)
	s, plain := b.Liquid.Strength()
	require.True(t, plain)
	require.InDelta(t, 0.2, float64(s), 1e-15)
}
