package solution

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Source: WisDOT winter FAQ: a pound of salt melts over five times as much ice at
// 30 F as at 20 F. Salt is taken as saturated brine, less the water that it brings.
func TestMeltingAtThirtyAgainstTwenty(t *testing.T) {
	perSalt := func(fahrenheit float64) float64 {
		const strength = 0.26
		melted, err := Anchored().Melting(Brine(strength), zeroCelsius+(fahrenheit-32)/1.8)
		require.NoError(t, err)
		return (melted + 1 - strength) / strength
	}
	ratio := perSalt(30) / perSalt(20)
	require.Greater(t, ratio, 5.0)
	require.Less(t, ratio, 7.0)
}

// Source: CRC Handbook, 102nd ed.: 10 % brine freezes at -6.56 C, so 23.3 % brine
// is diluted to 10 % there: it melts 1.33 times its weight, within the model's 0.05
// C, which is 0.07 % of strength.
func TestMeltingByHandbook(t *testing.T) {
	melted, err := Anchored().Melting(Brine(0.233), zeroCelsius-6.56)
	require.NoError(t, err)
	require.InDelta(t, 0.233/0.1-1, melted, 0.02)
}

// The liquid, diluted with what it melts, freezes at that temperature.
func TestMeltingEndsAtTheIcePoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Composition{
			NaCl:  rapid.Float64Range(0.01, 0.2).Draw(t, "NaCl"),
			CaCl2: rapid.Float64Range(0, 0.1).Draw(t, "CaCl2"),
			MgCl2: rapid.Float64Range(0, 0.1).Draw(t, "MgCl2"),
		}
		kelvin := zeroCelsius - rapid.Float64Range(0.5, 25).Draw(t, "C below")
		melted, err := Anchored().Melting(c, kelvin)
		require.NoError(t, err)
		f, err := Anchored().Freezing(c)
		require.NoError(t, err)
		if melted == 0 {
			// It freezes there itself, or salt falls out of it with the ice.
			e, err := Anchored().Equilibrium(c, kelvin-1e-3)
			require.NoError(t, err)
			require.True(t, f.Ice.Temperature >= kelvin-1e-4 || e.Salt() > 0)
			return
		}
		diluted, err := Anchored().Freezing(mixed(c, Composition{}, melted))
		require.NoError(t, err)
		require.InDelta(t, kelvin, diluted.Ice.Temperature, 1e-4)
	})
}

func TestMeltingErrors(t *testing.T) {
	_, err := Anchored().Melting(Brine(0.2), zeroCelsius)
	require.ErrorIs(t, err, ErrTemperature)
	_, err = Anchored().Melting(Brine(0.9), zeroCelsius-5)
	require.ErrorIs(t, err, ErrComposition)
	melted, err := Anchored().Melting(Composition{}, zeroCelsius-5)
	require.NoError(t, err)
	require.Zero(t, melted)
}

// Below the eutectic ice and salt are stable, so brine melts nothing there.
func TestNothingMeltsBelowTheEutectic(t *testing.T) {
	_, eutectic, _, err := Anchored().Eutectic(NaCl)
	require.NoError(t, err)
	for _, strength := range []float64{0.2, 0.233, 0.26} {
		melted, err := Anchored().Melting(Brine(strength), eutectic-0.05)
		require.NoError(t, err)
		require.Zero(t, melted)
	}
	melted, err := Anchored().Melting(Brine(0.26), eutectic+0.05)
	require.NoError(t, err)
	require.Positive(t, melted)
}
