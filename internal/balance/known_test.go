package balance

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Known brine is that of its parts asked one by one, at its own and at another temperature.
func TestKnownIsWhatItsPartsSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := quantity.Strength(rapid.Float64Range(0, 0.262).Draw(t, "strength"))
		k, err := Know(fault.FieldStrength, s, quantity.Celsius(rapid.Float64Range(1, 50).Draw(t, "C")))
		require.NoError(t, err)
		other := quantity.Celsius(rapid.Float64Range(-20, 50).Draw(t, "other C"))
		for _, k := range []Known{k, k.At(other)} {
			require.Equal(t, s, k.Strength)
			require.Equal(t, BrineDensity(s, k.Temperature), k.Density)
			cold, err := SaltBrine(s).Cold()
			require.NoError(t, err)
			require.Equal(t, cold.Freezing, k.Freezing)
			require.Equal(t, cold.First(), k.First())
		}
		require.Equal(t, other, k.At(other).Temperature)
	})
}

// Salt Institute solubility table: 26.395 % at 60 F is saturated. Whether a strength
// dissolves is told alike by where salt falls out of it and by the solubility.
func TestKnowRefuses(t *testing.T) {
	full, err := Saturation(sixty)
	require.NoError(t, err)
	require.InDelta(t, 0.26395, float64(full), 1e-4)
	for _, s := range []quantity.Strength{0, 0.1, full - 1e-7, full} {
		_, err := Know(fault.FieldStrength, s, sixty)
		require.NoError(t, err, "%v", float64(s))
	}
	for _, s := range []quantity.Strength{-0.001, full + 1e-6, 0.28, 0.6} {
		_, err := Know(fault.FieldStock, s, sixty)
		faulttest.RequireRefusal(t, err, fault.FieldStock, "no brine at 60 F is that strong; allowed: 0% to 26.39% (saturated)")
	}
	_, err = Know(fault.FieldStrength, 0.1, quantity.Celsius(90))
	require.ErrorIs(t, err, solution.ErrTemperature)
	_, err = Know(fault.FieldStrength, 0.4, quantity.Celsius(90))
	require.ErrorIs(t, err, solution.ErrTemperature)
}

func TestKnowTarget(t *testing.T) {
	k, err := KnowTarget(0.233, sixty)
	require.NoError(t, err)
	require.Equal(t, quantity.Strength(0.233), k.Strength)
	_, err = KnowTarget(0, sixty)
	faulttest.RequireRefusal(t, err, fault.FieldTarget, "no target; allowed: above 0%")
	_, err = KnowTarget(0.27, sixty)
	faulttest.RequireField(t, err, fault.FieldTarget, "beyond saturation")
}

// CRC Handbook: 10 % brine freezes at -6.56 C. Above that it is liquid, and below by more
// than rounding part solid.
func TestPartSolid(t *testing.T) {
	k, err := Know(fault.FieldStrength, 0.1, sixty)
	require.NoError(t, err)
	require.False(t, k.PartSolid())
	require.False(t, k.At(quantity.Celsius(-6.4)).PartSolid())
	require.True(t, k.At(quantity.Celsius(-6.8)).PartSolid())
	first := quantity.Temperature(k.First().Temperature)
	require.False(t, k.At(first-0.04).PartSolid())
	require.True(t, k.At(first-0.06).PartSolid())
}

// CRC Handbook: 23.3 % at 20 C weighs 1.1746 g/cm3, water 0.9982: a gravity 20/20 C of
// 1.1767. At 60/60 F it is 0.001 more, since brine shrinks by 0.0004 a kelvin and water by
// half of that.
func TestGravity(t *testing.T) {
	k, err := Know(fault.FieldStrength, 0.233, quantity.Celsius(5))
	require.NoError(t, err)
	require.InDelta(t, 1.1777, float64(k.Gravity()), 1e-3)
	require.Equal(t, k.Gravity(), k.At(quantity.Celsius(40)).Gravity())
	water, err := Know(fault.FieldStrength, 0, sixty)
	require.NoError(t, err)
	require.Equal(t, quantity.SpecificGravity(1), water.Gravity())
}

// Brine beyond what was checked before is a mistake of the program.
func TestBrineDensityPanics(t *testing.T) {
	require.Panics(t, func() { BrineDensity(0.7, sixty) })
}

// A liquid tells what it is: plain brine by its strength, and what a hydrometer shows in it.
func TestLiquids(t *testing.T) {
	s, plain := SaltBrine(0.2).Strength()
	require.True(t, plain)
	require.Equal(t, quantity.Strength(0.2), s)
	_, plain = OfProduct("sheet", sheet()).Strength()
	require.False(t, plain)
	require.Equal(t, "stock", SaltBrine(0.2).Named("stock").Name)

	shown, ok := SaltBrine(0.2).Reading(gauge.PercentGlass(), sixty)
	require.True(t, ok)
	require.InDelta(t, 0.2, shown, 1e-9)
	_, ok = SaltBrine(0.7).Reading(gauge.PercentGlass(), sixty)
	require.False(t, ok)
	_, err := Liquid{Composition: solution.Composition{NaCl: 0.7, Other: 0.1}, Products: []Ingredient{{sheet(), 0.1}}}.Density(sixty)
	require.ErrorIs(t, err, solution.ErrComposition)
}

// A product in a liquid makes its ice point an estimate; where its table ends without ice,
// that end is what is known.
func TestColdOfProducts(t *testing.T) {
	p := sheet()
	cold, err := OfProduct("sheet", p).Cold()
	require.NoError(t, err)
	require.True(t, cold.Estimated)
	require.True(t, cold.Beyond)
	require.Equal(t, cold.Ice.Temperature, cold.IceOr(100))
	require.Equal(t, 100.0, Cold{}.IceOr(100))
	thin := Liquid{Composition: solution.Composition{Other: 0.1}, Products: []Ingredient{{p, 0.2}}}
	cold, err = thin.Cold()
	require.NoError(t, err)
	require.InDelta(t, 268.5, cold.IceOr(0), 1e-6)
}

func TestDissolves(t *testing.T) {
	_, err := SaltBrine(0.25).Dissolves()
	require.NoError(t, err)
	_, err = SaltBrine(0.266).Dissolves() // saturated brine holds 26.7 % at 40 C by the Salt Institute's table
	require.NoError(t, err)
	_, err = SaltBrine(0.266).DissolvesAt(quantity.Celsius(5))
	faulttest.RequireRefusal(t, err, fault.FieldParts, "not all of brine stays dissolved at 41 F")
	_, err = SaltBrine(0.3).Dissolves()
	faulttest.RequireRefusal(t, err, fault.FieldParts, "not all of brine stays dissolved")
	_, err = SaltBrine(0.6).Dissolves()
	faulttest.RequireRefusal(t, err, fault.FieldParts, "allowed: 50% in all")
	_, err = Liquid{Products: []Ingredient{{&solution.Product{}, 1}}}.Dissolves()
	require.Error(t, err)
}
