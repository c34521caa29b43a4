package solution

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

var nan, inf = math.NaN(), math.Inf(1)

// notSolutions are mass fractions that Check refuses.
var notSolutions = map[string]Composition{
	"negative NaCl":  {NaCl: -1e-9},
	"negative KCl":   {KCl: -0.1},
	"negative CaCl2": {CaCl2: -0.1},
	"negative MgCl2": {MgCl2: -0.1},
	"negative other": {NaCl: 0.2, Other: -0.1},
	"NaN NaCl":       {NaCl: nan},
	"NaN KCl":        {KCl: nan},
	"NaN CaCl2":      {CaCl2: nan},
	"NaN MgCl2":      {MgCl2: nan},
	"NaN other":      {Other: nan},
	"infinite":       {NaCl: inf},
	"less than all":  {NaCl: -inf},
	"too strong":     {NaCl: MaxSolute + 1e-9},
	"salts too many": {NaCl: 0.2, KCl: 0.1, CaCl2: 0.1, MgCl2: 0.100001},
	"too much":       {NaCl: 0.2, KCl: 0.1, CaCl2: 0.1, MgCl2: 0.1, Other: 0.51},
}

// stateFunctions are the functions of a composition and a temperature.
var stateFunctions = map[string]func(Composition, float64) error{
	"ActivityAt":   func(c Composition, k float64) error { _, err := ActivityAt(c, k); return err },
	"Density":      func(c Composition, k float64) error { _, err := Density(c, k); return err },
	"HeatCapacity": func(c Composition, k float64) error { _, err := HeatCapacity(c, k); return err },
	"HeatTaken":    func(c Composition, k float64) error { _, err := HeatTaken(c, k); return err },
	"SaturationIndex": func(c Composition, k float64) error {
		_, err := Anchored().SaturationIndex(Halite, c, k)
		return err
	},
}

func TestCompositionErrors(t *testing.T) {
	for name, c := range notSolutions {
		require.ErrorIs(t, c.Check(), ErrComposition, name)
		_, err := Anchored().Freezing(c)
		require.ErrorIs(t, err, ErrComposition, name)
		for function, f := range stateFunctions {
			require.ErrorIs(t, f(c, SixtyF), ErrComposition, "%s: %s", function, name)
		}
	}
}

func TestTemperatureErrors(t *testing.T) {
	for _, kelvin := range []float64{Floor - 1e-6, Ceiling + 1e-6, 0, -1, nan, inf, -inf} {
		for function, f := range stateFunctions {
			require.ErrorIs(t, f(Brine(0.2), kelvin), ErrTemperature, "%s at %g K", function, kelvin)
		}
		_, err := WaterDensity(kelvin)
		require.ErrorIs(t, err, ErrTemperature, "%g K", kelvin)
		_, _, err = Anchored().Solubility(NaCl, kelvin)
		require.ErrorIs(t, err, ErrTemperature, "%g K", kelvin)
		_, ok := BrineStrength(1100, kelvin)
		require.False(t, ok, "%g K", kelvin)
	}
}

// The ends of every range have an answer.
func TestEdgesAreAnswered(t *testing.T) {
	for _, c := range []Composition{{}, Brine(MaxSolute), Pure(CaCl2, MaxSolute), {Other: MaxSolute}} {
		require.NoError(t, c.Check())
		_, err := Anchored().Freezing(c)
		require.NoError(t, err)
		for function, f := range stateFunctions {
			require.NoError(t, f(c, floorOf(function)), function)
			require.NoError(t, f(c, Ceiling), function)
		}
	}
}

// floorOf is the lowest temperature (K) of a function.
func floorOf(function string) float64 {
	if function == "Density" {
		return DensityFloor
	}
	return Floor
}

// Below the floor of a fit there is an error, not a wrong number.
func TestFitFloors(t *testing.T) {
	for function, f := range stateFunctions {
		require.ErrorIs(t, f(Brine(0.2), floorOf(function)-1e-3), ErrTemperature, function)
	}
}

// An end in C that is converted to K is a digit below the constant.
func TestFloorInCelsius(t *testing.T) {
	celsius := -70.0
	_, err := ActivityAt(Brine(0.2), celsius+zeroCelsius)
	require.NoError(t, err)
}

// CaCl2.6H2O melts in its own water at 30 C: the model finds no saturation there.
func TestSolubilityBeyondTheModel(t *testing.T) {
	_, _, err := Anchored().Solubility(CaCl2, zeroCelsius+35)
	require.ErrorIs(t, err, ErrComposition)
	require.ErrorContains(t, err, "CaCl2")
}

// The error names the share or the sum.
func TestCompositionErrorsSayWhy(t *testing.T) {
	require.ErrorContains(t, Brine(-0.1).Check(), "-0.1")
	require.ErrorContains(t, Brine(0.6).Check(), "60 %")
}

// rangeText writes a range as one word for comparison.
func rangeText(l FitRange) string {
	salt := "all"
	if l.Salt != AllSalts {
		salt = l.Salt.String()
	}
	if l.Strength > 0 {
		return fmt.Sprintf("%s/%s/to %.4g%%", l.Property, salt, 100*l.Strength)
	}
	return fmt.Sprintf("%s/%s/%.4g to %.4g C", l.Property, salt, l.Low-zeroCelsius, l.High-zeroCelsius)
}

// A solution inside every range leaves none; each step outside adds one.
func TestOutOfRange(t *testing.T) { rangesOfFits(t, &standard) }

func rangesOfFits(t testing.TB, k *coefficients) {
	brine := Brine(0.233)
	for _, c := range []struct {
		property Property
		solution Composition
		celsius  float64
		want     []string
	}{
		{Saturation, brine, 25, nil},
		{Saturation, brine, 26, []string{"activity/all/-70 to 25 C"}},
		{Saturation, brine, -71, []string{"activity/all/-70 to 25 C"}},
		{Saturation, Pure(CaCl2, CheckedTo), 0, nil},
		{Saturation, Pure(CaCl2, 0.33), 30, []string{"activity/all/-70 to 25 C", "activity/all/to 32%"}},
		{DensityFit, brine, 0, nil},
		{DensityFit, brine, -1, []string{"density/NaCl/0 to 140 C"}},
		{DensityFit, Brine(0.27), 20, []string{"density/NaCl/to 26.59%"}},
		{DensityFit, Composition{NaCl: 0.1, CaCl2: 0.05}, 10, []string{"density/CaCl2/15 to 126.7 C"}},
		{DensityFit, Composition{NaCl: 0.1, MgCl2: 0.18}, -2, []string{
			"density/NaCl/0 to 140 C", "density/MgCl2/0 to 98.67 C",
		}},
		{HeatFit, brine, 2, nil},
		{HeatFit, Composition{NaCl: 0.1, CaCl2: 0.05}, 1, []string{"heat capacity/NaCl/2 to 60 C", "heat capacity/CaCl2/25 to 60 C"}},
		{HeatFit, Composition{KCl: 0.1, MgCl2: 0.05}, 4.5, []string{"heat capacity/KCl/5 to 60 C", "heat capacity/MgCl2/5 to 60 C"}},
		{HeatFit, Composition{KCl: 0.1, MgCl2: 0.05, CaCl2: 0.01}, 25, nil},
		{DensityFit, Composition{Other: 0.1}, -1, []string{"density/NaCl/0 to 140 C"}},
	} {
		var got []string
		for _, l := range k.outOfRange(c.property, c.solution, zeroCelsius+c.celsius) {
			got = append(got, rangeText(l))
		}
		require.Equal(t, c.want, got, "%+v", c)
	}
}

// The ends that messages and documents state, in C and as shares.
func TestLimitsOfAnswers(t *testing.T) {
	for name, limit := range map[string]struct{ want, got float64 }{
		"floor":             {-70, Floor - zeroCelsius},
		"ceiling":           {60, Ceiling - zeroCelsius},
		"end of the fit":    {25, FitCeiling - zeroCelsius},
		"top of the search": {40, SearchTop - zeroCelsius},
		"floor of density":  {-35, DensityFloor - zeroCelsius},
		"60 F":              {60, 1.8*(SixtyF-zeroCelsius) + 32},
		"salts":             {0.5, MaxSolute},
		"salts, checked":    {0.32, CheckedTo},
		"brine":             {0.28, BrineTop},
	} {
		require.InDelta(t, limit.want, limit.got, 1e-9, name)
	}
}
