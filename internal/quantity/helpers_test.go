package quantity

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
)

// parsers reads a text as every type, the value in SI.
var parsers = map[string]func(string) (float64, bool, error){
	"strength":          si(ParseStrength),
	"temperature":       si(ParseTemperature),
	"volume":            si(ParseVolume),
	"weight":            si(ParseMass),
	"density":           si(ParseDensity),
	"flow":              si(ParseFlow),
	"specific gravity":  si(ParseSpecificGravity),
	"salometer":         si(ParseSalometer),
	"baume":             si(ParseBaume),
	"price of a volume": si(ParsePricePerVolume),
	"price of a weight": si(ParsePricePerMass),
}

func si[Q ~float64](parse func(string) (Q, bool, error)) func(string) (float64, bool, error) {
	return func(text string) (float64, bool, error) {
		q, bare, err := parse(text)
		return float64(q), bare, err
	}
}

// accepted is a text, its value in SI, and whether the unit was left out.
type accepted struct {
	text string
	want float64
	bare bool
}

// requireParses allows for a few roundings of the last digit.
func requireParses(t *testing.T, kind string, cases []accepted) {
	t.Helper()
	const digits = 1e-14
	for _, c := range cases {
		got, bare, err := parsers[kind](c.text)
		require.NoError(t, err, "%s %q", kind, c.text)
		require.InDelta(t, c.want, got, digits*max(1, math.Abs(c.want)), "%s %q", kind, c.text)
		require.Equal(t, c.bare, bare, "%s %q", kind, c.text)
	}
}

// requirePrintable fails for a message that could break or reorder a line of a
// terminal, or fill the screen.
func requirePrintable(t *testing.T, message string) {
	t.Helper()
	require.False(t, strings.ContainsFunc(message, func(r rune) bool {
		return unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
	}), "%q", message)
	require.Less(t, len(message), 500)
}
