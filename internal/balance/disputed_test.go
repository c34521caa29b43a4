package balance

import (
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Of a blend both opinions on where salt falls out are given, the warm side to plan by. Source of the second: the
// line of ice and hydrohalite of Chi and Ni (2007), here at -30 C with 34.46 % of NaCl in 25.794 % dissolved; the model
// alone has salt fall out 5 C above the line.
func TestColdOfABlend(t *testing.T) {
	c, err := Liquid{Composition: solution.Composition{NaCl: 0.3446 * 0.25794, CaCl2: 0.6554 * 0.25794}}.Cold()
	require.NoError(t, err)
	require.True(t, c.Disputed())
	require.InDelta(t, -30, quantity.Temperature(c.SaltLow.Temperature).Celsius(), 0.1)
	require.InDelta(t, -24.7, quantity.Temperature(c.Salt.Temperature).Celsius(), 0.3)
	require.False(t, c.Borrowed)
	require.Equal(t, c.Salt, c.First())

	magnesium, err := Liquid{Composition: solution.Composition{NaCl: 0.15, MgCl2: 0.08}}.Cold()
	require.NoError(t, err)
	require.True(t, magnesium.Borrowed)

	plain, err := SaltBrine(0.25).Cold()
	require.NoError(t, err)
	require.False(t, plain.Disputed())
	require.Equal(t, plain.Salt, plain.SaltLow)
}

// Whatever is mixed, what is planned by is the warmer.
func TestWarmSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := solution.Composition{NaCl: rapid.Float64Range(0, 0.24).Draw(t, "nacl")}
		c.CaCl2 = rapid.Float64Range(0, 0.28-c.NaCl).Draw(t, "cacl2")
		c.MgCl2 = rapid.Float64Range(0, max(0, 0.28-c.NaCl-c.CaCl2)).Draw(t, "mgcl2")
		cold, err := Liquid{Composition: c}.Cold()
		require.NoError(t, err)
		model, err := solution.Anchored().Freezing(c)
		require.NoError(t, err)
		require.Equal(t, model.Ice, cold.Ice)
		require.GreaterOrEqual(t, cold.SaltOr(solution.Floor), model.Salt.Temperature*found(model.Salt))
		if cold.SaltLow.Found {
			require.True(t, cold.Salt.Found)
			require.GreaterOrEqual(t, cold.Salt.Temperature, cold.SaltLow.Temperature)
		}
	})
}

func found(o solution.Onset) float64 {
	if o.Found {
		return 1
	}
	return 0
}

// No brine above saturation is taken at any temperature: the published solubility between 100 and 125 F is 26.68 to
// 26.92 % (Salt Institute).
func TestSaturationInTheHeat(t *testing.T) {
	for fahrenheit := 90.0; fahrenheit <= 122; fahrenheit++ {
		at := quantity.Fahrenheit(fahrenheit)
		published := 26.68 + 0.24*(fahrenheit-100)/25
		for _, over := range []float64{0.05, 0.2, 1.2} {
			_, err := Know(fault.FieldStrength, quantity.Strength((published+over)/100), at)
			require.Error(t, err, "%g F, %g %%", fahrenheit, published+over)
		}
		_, err := Know(fault.FieldStrength, quantity.Strength((published-0.05)/100), at)
		require.NoError(t, err, "%g F", fahrenheit)
	}
}
