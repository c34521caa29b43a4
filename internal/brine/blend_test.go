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

// A solve's answer, put back in, gives what was asked.
func TestSolvedSharePutBack(t *testing.T) {
	solved := 0
	rapid.Check(t, func(t *rapid.T) {
		r := eighty(quantity.Strength(rapid.Float64Range(0.1, 0.235).Draw(t, "base")))
		ice := quantity.Fahrenheit(rapid.Float64Range(-30, -8).Draw(t, "F"))
		s, err := ShareForIce(r, ice)
		if err != nil {
			faulttest.RequireField(t, err, fault.FieldIceAt, "") // salt falls out of it at 60 F
			return
		}
		solved++
		x := float64(s.Share)
		r.Parts[0].Amount, r.Parts[1].Amount = 100*(1-x), 100*x
		b, err := NewBlend(r)
		require.NoError(t, err)
		require.InDelta(t, float64(ice), b.Cold.Ice.Temperature, 1e-4)
	})
	require.Greater(t, solved, 50)
}

func TestSolvedBasePutBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clear := quantity.Fahrenheit(rapid.Float64Range(-9.5, 20).Draw(t, "F"))
		s, err := KeepClear(eighty(0.233), clear)
		require.NoError(t, err)
		b, err := NewBlend(eighty(s.BaseStrength))
		require.NoError(t, err)
		require.InDelta(t, float64(clear), b.Cold.Salt.Temperature, 1e-4)
		// It is clear there in truth: nothing at all has fallen out.
		e, err := solution.Anchored().Equilibrium(b.Liquid.Composition, float64(clear)+1e-3)
		require.NoError(t, err)
		require.InDelta(t, 1, e.LiquidFraction, 1e-9)
	})
}

// Below where ice and salt come together nothing keeps clear.
func TestKeepClearEndsAtIce(t *testing.T) {
	_, err := KeepClear(eighty(0.233), quantity.Fahrenheit(-15))
	faulttest.RequireField(t, err, fault.FieldKeepClear, "ice first")
	require.ErrorContains(t, err, "down to -9.8 F")
	_, err = Meet(eighty(0.233), quantity.Fahrenheit(-5), quantity.Fahrenheit(-10))
	faulttest.RequireField(t, err, fault.FieldKeepClear, "below the ice point")
}

// A last part that dilutes raises the ice point: the share is found all the same.
func TestShareOfWater(t *testing.T) {
	r := eighty(0.233)
	r.Parts[1].Liquid = balance.Liquid{Name: "water"}
	s, err := ShareForIce(r, quantity.Fahrenheit(10))
	require.NoError(t, err)
	require.InDelta(t, 0.3417, float64(s.Share), 1e-3)
	require.InDelta(t, 10, fahrenheit(s.Blend.Cold.Ice.Temperature), 1e-3)
}

func TestMeetPutBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ice := quantity.Fahrenheit(rapid.Float64Range(-30, -10).Draw(t, "ice F"))
		clear := ice + quantity.Temperature(rapid.Float64Range(0, 10).Draw(t, "above"))
		s, err := Meet(eighty(0.233), ice, clear)
		require.NoError(t, err)
		b, err := NewBlend(s.Request)
		require.NoError(t, err)
		require.InDelta(t, float64(clear), b.Cold.Salt.Temperature, 1e-3)
		if s.Share == 0 {
			require.LessOrEqual(t, b.Cold.Ice.Temperature, float64(ice))
			return
		}
		require.InDelta(t, float64(ice), b.Cold.Ice.Temperature, 1e-3)
		require.InDelta(t, float64(s.Share), s.Request.lastShare(), 1e-9)
	})
}

// With enough water any base keeps clear, even saturated.
func TestAnyBaseKeepsClear(t *testing.T) {
	r := eighty(0.233)
	r.Parts[1] = Part{Liquid: balance.Liquid{Name: "water"}, Amount: 40}
	s, err := KeepClear(r, quantity.Fahrenheit(20))
	require.NoError(t, err)
	require.True(t, s.AnyBase)
	require.InDelta(t, 0.264, float64(s.BaseStrength), 1e-3)
}

func TestSolveRefusals(t *testing.T) {
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.2, Temperature: 263}}}
	product := eighty(0.233)
	product.Parts[1].Liquid = balance.OfProduct("sheet", sheet)
	alone := eighty(0.233)
	alone.Parts = alone.Parts[:1]
	backward := eighty(0.233)
	backward.Parts[0], backward.Parts[1] = backward.Parts[1], backward.Parts[0]
	negative := eighty(0.233)
	negative.Parts[0].Amount = -1
	hot := eighty(0.233)
	hot.Temperature = quantity.Celsius(90)
	kcl := eighty(0.233)
	kcl.Parts[1].Liquid = balance.Liquid{Name: "kcl", Composition: solution.Composition{KCl: 0.2}}
	cold, colder := quantity.Fahrenheit(-10), quantity.Fahrenheit(-75)
	for name, c := range map[string]struct {
		field string
		solve func() error
	}{
		"one part":          {fault.FieldIceAt, func() error { _, err := ShareForIce(alone, cold); return err }},
		"one part, both":    {fault.FieldIceAt, func() error { _, err := Meet(alone, cold, cold); return err }},
		"too warm":          {fault.FieldIceAt, func() error { _, err := ShareForIce(eighty(0.233), quantity.Celsius(10)); return err }},
		"too cold":          {fault.FieldIceAt, func() error { _, err := ShareForIce(kcl, quantity.Celsius(-40)); return err }},
		"no brine first":    {fault.FieldKeepClear, func() error { _, err := KeepClear(backward, cold); return err }},
		"with a product":    {fault.FieldKeepClear, func() error { _, err := KeepClear(product, cold); return err }},
		"never both":        {fault.FieldIceAt, func() error { _, err := Meet(kcl, cold, cold); return err }},
		"both, no brine":    {fault.FieldKeepClear, func() error { _, err := Meet(backward, colder, colder); return err }},
		"negative share":    {fault.FieldParts, func() error { _, err := ShareForIce(negative, cold); return err }},
		"negative, base":    {fault.FieldParts, func() error { _, err := KeepClear(negative, cold); return err }},
		"negative, both":    {fault.FieldParts, func() error { _, err := Meet(negative, cold, cold); return err }},
		"hot":               {fault.FieldTemperature, func() error { _, err := NewBlend(hot); return err }},
		"no parts":          {fault.FieldParts, func() error { _, err := NewBlend(BlendRequest{Temperature: cold}); return err }},
		"does not dissolve": {fault.FieldParts, func() error { _, err := NewBlend(eighty(0.3)); return err }},
	} {
		faulttest.RequireField(t, c.solve(), c.field, name)
	}
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

// The base alone meets what is asked, as it is: nothing of the last part is taken.
// 20 % brine freezes at -16.46 C, 2.4 F, by CRC Handbook.
func TestMeetByTheBaseAlone(t *testing.T) {
	s, err := Meet(eighty(0.2), quantity.Fahrenheit(10), quantity.Fahrenheit(12))
	require.NoError(t, err)
	require.Zero(t, s.Share)
	require.Equal(t, quantity.Strength(0.2), s.BaseStrength)
	require.Zero(t, s.Blend.Liquid.Composition.CaCl2)
	require.InDelta(t, 2.4, fahrenheit(s.Blend.Cold.Ice.Temperature), 0.5) // the model's is 0.25 C lower
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

// A liquid that has no ice down to the model's end, -70 C, counts as freezing there.
func TestBlendRefusalsInWords(t *testing.T) {
	strong := eighty(0.233)
	strong.Parts[1].Liquid = wild.Calcium(0.38)
	_, err := ShareForIce(strong, quantity.Fahrenheit(0))
	faulttest.RequireRefusal(t, err, fault.FieldIceAt, "(none of it) and -94 F (nothing else)")

	// Chloride of so much of it drives salt out of brine that is near saturation.
	near := eighty(0.25)
	near.Parts[1].Liquid, near.Temperature = wild.Calcium(0.38), quantity.Celsius(5)
	_, err = ShareForIce(near, quantity.Fahrenheit(-25))
	faulttest.RequireRefusal(t, err, fault.FieldIceAt, "of the last part, and not all of such a blend stays dissolved at 41 F; allowed: a warmer ice point")
}

// A curve that dips below zero between two steps of 1/40 is looked into: (x - 0.5125)^2
// less 0.005^2 is zero at 0.5075 first. The same from below, and those that never get
// there, one by little.
func TestFirstCrossing(t *testing.T) {
	dip := func(x float64) float64 { return (x-0.5125)*(x-0.5125) - 25e-6 }
	for name, c := range map[string]struct {
		off  func(float64) float64
		want float64 // below 0 for none
	}{
		"dip":    {dip, 0.5075},
		"hump":   {func(x float64) float64 { return -dip(x) }, 0.5075},
		"line":   {func(x float64) float64 { return 0.31 - x }, 0.31},
		"rising": {func(x float64) float64 { return x - 0.31 }, 0.31},
		"there":  {func(x float64) float64 { return x }, 0},
		"end":    {func(x float64) float64 { return 0.999 - x }, 0.999},
		"never":  {func(x float64) float64 { return 1 + x }, -1},
		"nearly": {func(x float64) float64 { return dip(x) + 26e-6 }, -1},
	} {
		x, err := firstCrossing(func(x float64) (float64, error) { return c.off(x), nil })
		require.NoError(t, err, name)
		require.Equal(t, c.want < 0, math.IsNaN(x), name)
		if c.want >= 0 {
			require.InDelta(t, c.want, x, 1e-10, name)
		}
	}
}

// An error on the way, at a step, in a hollow or in the last narrowing, is handed on.
func TestFirstCrossingFails(t *testing.T) {
	failed := fault.Input(fault.FieldParts, "not there")
	for name, c := range map[string]struct {
		off       func(float64) float64
		low, high float64 // where it fails
	}{
		"at once":   {func(x float64) float64 { return 1 - 2*x }, 0, 0},
		"at a step": {func(x float64) float64 { return 1 - 2*x }, 0.2, 0.3},
		"narrowing": {func(x float64) float64 { return 1.01 - 2*x }, 0.5001, 0.5249},
		"hollow":    {func(x float64) float64 { return 1e-4 + (x-0.5125)*(x-0.5125) }, 0.5001, 0.5249},
	} {
		_, err := firstCrossing(func(x float64) (float64, error) {
			if x >= c.low && x <= c.high {
				return c.off(x), failed
			}
			return c.off(x), nil
		})
		require.Equal(t, failed, err, name)
	}
}
