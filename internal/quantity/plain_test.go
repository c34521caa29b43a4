package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPlain(t *testing.T) {
	for text, want := range map[string]string{
		"1,750gal": "1750gal", "1,234,567.5 gal": "1234567.5 gal", "1 200 L": "1200 L", "12 500": "12500", "1\u202f200\u00a0L": "1200\u00a0L",
		"23,3%": "23.3%", "-5,5C": "-5.5C", "$1,790": "$1790", "0,25": "0.25", "9,8254 lb/gal": "9.8254 lb/gal", "1 200,5": "1200.5",
		"500gal": "500gal", "23.3%": "23.3%", "": "", "gal": "gal", "5 5": "5 5", "1,00,000": "1,00,000", "1,,5": "1,,5", ",5": ",5", "1.000,5": "1.000,5",
		"0,750": "0,750", "1 ,5": "1 ,5", "3ft 6in": "3ft 6in", "1,750,25": "1,750,25", "5,": "5,",
	} {
		require.Equal(t, want, Plain(text), "%q", text)
	}
	require.NoError(t, Unclear("1,750gal", US))
	require.EqualError(t, Unclear("1,750kg", Metric), "1,750 is unclear; allowed: 1 750 or 1.75")
	for _, text := range []string{"1 750kg", "1,75kg", "1,234,567", "23.3%", "", "kg", "0,750"} {
		require.NoError(t, Unclear(text, Metric), text)
	}
}

// What is printed can be typed back, in both systems.
func TestPrintedIsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Volume(rapid.Float64Range(0, 90000).Draw(t, "m3"))
		sys := rapid.SampledFrom([]System{US, Metric}).Draw(t, "system")
		printed := v.In(sys).String()
		require.NoError(t, Unclear(printed, sys))
		got, bare, err := ParseVolume(Plain(printed))
		require.NoError(t, err, printed)
		require.False(t, bare)
		require.Equal(t, printed, got.In(sys).String())
		require.Equal(t, sys == US && v >= 1000*Gallon, strings.Contains(printed, ","), printed)
	})
}
