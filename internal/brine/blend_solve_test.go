package brine

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

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
