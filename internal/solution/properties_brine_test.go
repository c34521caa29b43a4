package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// BrineStrength is the inverse of Density. The search stops at 1e-13, and the doc
// comment promises 1e-12.
func TestStrengthIsInverseOfDensity(t *testing.T) {
	const tolerance, top = 1e-12, 0.28
	rapid.Check(t, func(t *rapid.T) {
		want, kelvin := rapid.Float64Range(1e-6, top-1e-6).Draw(t, "strength"), drawKelvin(t, -20, 60)
		rho, err := Density(Brine(want), kelvin)
		require.NoError(t, err)
		got, ok := BrineStrength(rho, kelvin)
		require.True(t, ok)
		require.InDelta(t, want, got, tolerance)
	})
}

// A density that no brine has gives no strength.
func TestNoStrengthOutsideBrine(t *testing.T) {
	water, err := WaterDensity(SixtyF)
	require.NoError(t, err)
	top, err := Density(Brine(BrineTop), SixtyF)
	require.NoError(t, err)
	for _, rho := range []float64{water - 0.01, top + 0.01, 0, -1000, math.NaN(), math.Inf(1)} {
		_, ok := BrineStrength(rho, SixtyF)
		require.False(t, ok, "%g kg/m3", rho)
	}
	_, ok := BrineStrength(1100, math.NaN())
	require.False(t, ok)

	// A reading in water may be short by its last digits.
	strength, ok := BrineStrength(water*(1-1e-12), SixtyF)
	require.True(t, ok)
	require.Zero(t, strength)
}

// Density rises with strength, so that BrineStrength has one answer.
func TestDensityRisesWithStrength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kelvin := drawKelvin(t, -20, 60)
		weak := rapid.Float64Range(0, BrineTop-0.001).Draw(t, "weak")
		strong := rapid.Float64Range(weak+0.001, BrineTop).Draw(t, "strong")
		a, err := Density(Brine(weak), kelvin)
		require.NoError(t, err)
		b, err := Density(Brine(strong), kelvin)
		require.NoError(t, err)
		require.Greater(t, b, a)
	})
}

// Up to the eutectic, stronger brine freezes colder.
func TestIcePointFallsWithStrength(t *testing.T) {
	eutectic, _, _, err := Anchored().Eutectic(NaCl)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		weak := rapid.Float64Range(0, eutectic-0.001).Draw(t, "weak")
		strong := rapid.Float64Range(weak+0.0005, eutectic).Draw(t, "strong")
		a, err := Anchored().Freezing(Brine(weak))
		require.NoError(t, err)
		b, err := Anchored().Freezing(Brine(strong))
		require.NoError(t, err)
		require.Greater(t, a.Ice.Temperature, b.Ice.Temperature)
	})
}

// indexTolerance bounds a saturation index at a root: an index changes by less
// than 0.1 per K and less than 100 per unit of strength, and the searches stop at
// 1e-6 K and 1e-10.
const indexTolerance = 1e-7

// A solution of the strength from Solubility is just saturated with the solid from
// Solubility, is not supersaturated with another, and no weaker one is saturated.
func TestSolubilityIsSaturation(t *testing.T) {
	for s := range saltCount {
		rapid.Check(t, func(t *rapid.T) {
			kelvin := drawKelvin(t, -65, 25)
			strength, solid, err := Anchored().Solubility(s, kelvin)
			require.NoError(t, err)
			si, err := Anchored().SaturationIndex(solid, Pure(s, strength), kelvin)
			require.NoError(t, err)
			require.InDelta(t, 0, si, indexTolerance)
			for w := 0.002; w < strength; w += 0.002 {
				at := saturationAt{Anchored(), standard.molality(Pure(s, w))}
				si, solid := at.salt(kelvin)
				require.Less(t, si, 0.0, "%s at %g", solid, w)
			}
			at := saturationAt{Anchored(), standard.molality(Pure(s, strength))}
			most, _ := at.salt(kelvin)
			require.InDelta(t, 0, most, indexTolerance)
		})
	}
}

// Cooling in steps of 0.1 K from 40 C finds no onset before that of Freezing, so the
// 5 K steps of its search miss none.
func TestFreezingMissesNothing(t *testing.T) {
	const fine = 0.1
	rapid.Check(t, func(t *rapid.T) {
		c := drawComposition(t, CheckedTo)
		got, err := Anchored().Freezing(c)
		require.NoError(t, err)
		s := saturationAt{Anchored(), standard.molality(c)}
		salt := func(kelvin float64) float64 { si, _ := s.salt(kelvin); return si }
		requireOnset(t, c, got.Salt, salt, fine)
		requireOnset(t, c, got.Ice, s.ice, fine)
	})
}

// requireOnset checks one onset against the index of its solids at every step.
func requireOnset(t *rapid.T, c Composition, got Onset, index func(float64) float64, fine float64) {
	end := Floor
	if got.Found {
		si, err := Anchored().SaturationIndex(got.Solid, c, got.Temperature)
		require.NoError(t, err)
		if got.Saturated {
			require.Equal(t, SearchTop, got.Temperature)
			require.GreaterOrEqual(t, si, 0.0)
			return
		}
		require.InDelta(t, 0, si, indexTolerance, "%+v", got)
		end = got.Temperature + 2*onsetTolerance
	}
	for kelvin := SearchTop; kelvin > end; kelvin -= fine {
		require.Less(t, index(kelvin), 0.0, "at %.1f C, but %+v", kelvin-zeroCelsius, got)
	}
	require.Less(t, index(end), 0.0, "just above %+v", got)
}

// First is the warmer of the two onsets, or the only one that was found.
func TestFirstOnset(t *testing.T) {
	ice := Onset{Temperature: 260, Solid: Ice, Found: true}
	salt := Onset{Temperature: 250, Solid: Halite, Found: true}
	warmer := Onset{Temperature: 270, Solid: Halite, Found: true}
	require.Equal(t, ice, Freezing{ice, salt}.First())
	require.Equal(t, warmer, Freezing{ice, warmer}.First())
	require.Equal(t, salt, Freezing{Onset{}, salt}.First())
	require.Equal(t, ice, Freezing{ice, Onset{Temperature: 300}}.First())
	require.False(t, Freezing{}.First().Found)
}
