package words

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNatural(t *testing.T) {
	given := []string{"V10", "V2", "S1", "V02", "V2b", "V1", "north", "V2a", "V", ""}
	require.Equal(t, []string{"", "S1", "V", "V1", "V02", "V2", "V2a", "V2b", "V10", "north"}, Natural(given))
	require.Equal(t, "V10", given[0], "the names given are left as they are")
}

// The order is one: no two names are equal but the same, and it is the same whichever way round they are asked.
func TestNaturalIsAnOrder(t *testing.T) {
	name := rapid.StringMatching(`[Vv0-9]{0,5}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := name.Draw(t, "a"), name.Draw(t, "b"), name.Draw(t, "c")
		require.Equal(t, compareNatural(a, b), -compareNatural(b, a))
		require.Equal(t, a == b, compareNatural(a, b) == 0)
		if compareNatural(a, b) < 0 && compareNatural(b, c) < 0 {
			require.Negative(t, compareNatural(a, c))
		}
	})
}
