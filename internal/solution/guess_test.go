package solution

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A guess leads to the same onset as the search from the top down.
func TestGuessesChangeNothing(t *testing.T) {
	m := Anchored()
	guessed := 0
	for w := 0.0005; w <= 0.28; w += 0.0005 {
		c := Brine(w)
		f, err := m.Freezing(c)
		require.NoError(t, err)
		s := &saturationAt{model: m, m: standard.molality(c)}
		require.InDelta(t, descend(s.ice, iceTop).Temperature, f.Ice.Temperature, 2*onsetTolerance, "%g", w)
		salt := descend(s.saltIndex, SearchTop)
		require.Equal(t, salt.Found, f.Salt.Found, "%g", w)
		require.InDelta(t, salt.Temperature, f.Salt.Temperature, 2*onsetTolerance, "%g", w)
		require.Equal(t, salt.Saturated, f.Salt.Saturated)
		ice, of := guesses(c)
		// Most guesses are near enough to save the search.
		if d := f.Ice.Temperature - ice.at; d < ice.around && d > -ice.around {
			guessed++
		}
		if d := f.Salt.Temperature - of.at; of.around > 0 && d < of.around && d > -of.around {
			guessed++
		}
	}
	require.Greater(t, guessed, 740)
	ice, salt := guesses(Composition{NaCl: 0.2, KCl: 0.01})
	require.Zero(t, ice)
	require.Zero(t, salt)
}
