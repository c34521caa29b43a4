package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Source: the line of ice and hydrohalite in NaCl-CaCl2-H2O, G. Chi and P. Ni, Acta Petrologica Sinica 23 (2007)
// 33-37, tabulated from the equations of its abstract (nacl-cacl2-cotectic.csv).
func TestCotecticLine(t *testing.T) { cotecticLine(t, &standard) }

func cotecticLine(t testing.TB, k *coefficients) {
	model := k.anchored()
	for _, row := range publishedRows(t, "nacl-cacl2-cotectic.csv") {
		celsius, share, strength := number(t, row, "temp_C"), number(t, row, "X"), number(t, row, "S_percent")/100
		// The digits of X and S in the table are good for a hundredth of a degree and a thousandth of a percent.
		gotCelsius, gotStrength := k.cotectic.at(share)
		require.InDelta(t, celsius, gotCelsius, 0.02, "%v", row)
		require.InDelta(t, strength, gotStrength, 2e-5, "%v", row)

		c := Composition{NaCl: share * strength, CaCl2: (1 - share) * strength}
		f, err := model.Freezing(c)
		require.NoError(t, err)
		if celsius >= -38 {
			require.InDelta(t, celsius, f.Ice.Temperature-zeroCelsius, 0.3, "%v", row)
		}
		// The second opinion has hydrohalite fall out on the line, but for what the model lacks in pure salt
		// brine; the model alone has it up to 5 C warmer.
		second, differs := model.SecondOpinion(c)
		require.True(t, differs)
		there, err := second.Freezing(c)
		require.NoError(t, err)
		require.Equal(t, Hydrohalite, there.Salt.Solid, "%v", row)
		tolerance := 0.06
		if share > 0.7 {
			tolerance = 0.4
		}
		require.InDelta(t, celsius, there.Salt.Temperature-zeroCelsius, tolerance, "%v", row)
		if celsius <= -24 && celsius >= -38 {
			require.InDelta(t, 4, f.Salt.Temperature-there.Salt.Temperature, 1.7, "%v", row)
		}
	}
}

// The numbers of the equations, digit by digit, and the points of the anchor, which are rows of the Salt Institute's table.
func TestLineAndAnchorLiterals(t *testing.T) { lineAndAnchorLiterals(t, &standard) }

func lineAndAnchorLiterals(t testing.TB, k *coefficients) {
	require.Equal(t, cotectic{a: 0.33124402, b: -0.031518028, c: 0.22932736, d: 0.057184817, e: 0.00078565757, f: 5.7262766e-6}, k.cotectic)
	i := 0
	for _, row := range publishedRows(t, "salt-institute-solubility.csv") {
		if celsius := number(t, row, "T_C"); celsius <= 0.1 {
			require.InDelta(t, celsius, k.anchor[i].celsius, 1e-12)
			require.InDelta(t, share(t, row, "sat_mass_pct"), k.anchor[i].strength, 1e-12)
			i++
		}
	}
	require.Len(t, k.anchor, i)
}

// In brine with a trace of calcium chloride the second opinion is the first, and of one salt alone there is none.
func TestSecondOpinionFades(t *testing.T) {
	first, err := Anchored().Freezing(Composition{NaCl: 0.24, CaCl2: 1e-6})
	require.NoError(t, err)
	second, differs := Anchored().SecondOpinion(Composition{NaCl: 0.24, CaCl2: 1e-6})
	require.True(t, differs)
	there, err := second.Freezing(Composition{NaCl: 0.24, CaCl2: 1e-6})
	require.NoError(t, err)
	require.InDelta(t, first.Salt.Temperature, there.Salt.Temperature, 1e-3)
	for _, c := range []Composition{{NaCl: 0.24}, {CaCl2: 0.3}, {MgCl2: 0.2}, {}, {KCl: 0.1, NaCl: 0.1}} {
		_, differs := Anchored().SecondOpinion(c)
		require.False(t, differs, "%+v", c)
	}
	// Magnesium chloride counts as calcium chloride.
	calcium, _ := Anchored().SecondOpinion(Composition{NaCl: 0.15, CaCl2: 0.1})
	magnesium, _ := Anchored().SecondOpinion(Composition{NaCl: 0.15, MgCl2: 0.1})
	require.InDelta(t, calcium.shift, magnesium.shift, 1e-12)
}

// The anchor's curve has no kink: its slope is that of its values, over the whole branch, and nothing at the cold end.
func TestAnchorIsSmooth(t *testing.T) {
	a := standard.anchorCurve()
	const h = 1e-3
	for kelvin := a.low + h; kelvin < a.high-0.06; kelvin += 0.05 {
		require.InDelta(t, (a.at(kelvin+h)-a.at(kelvin-h))/(2*h), a.slope(kelvin), 1e-7)
		require.InDelta(t, a.slope(kelvin), a.slope(kelvin+0.05), 2e-4, "%.2f C", kelvin-zeroCelsius)
	}
	require.InDelta(t, 0, a.slope(a.low+1e-9), 1e-9)

	// The heat of dissolving is that of K as it is used: van 't Hoff by a difference of its logarithm.
	m := Anchored()
	for _, celsius := range []float64{-30, -15, -5, -1} {
		kelvin := zeroCelsius + celsius
		slope := (m.logK(Hydrohalite, kelvin+h) - m.logK(Hydrohalite, kelvin-h)) / (2 * h)
		require.InEpsilon(t, standard.gas*kelvin*kelvin*math.Ln10*slope, m.heatOfSolution(Hydrohalite, kelvin), 1e-5)
	}
	require.InDelta(t, a.at(a.low), a.at(Floor), 1e-15)
	require.InDelta(t, a.at(a.high), a.at(zeroCelsius+30), 1e-15)
}
