package quantity

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fuzzParse feeds a parser any text. It returns a number within the range (low to high in
// SI), or an error that is safe to print.
func fuzzParse(f *testing.F, kind string, low, high float64) {
	for _, text := range junk {
		f.Add(text)
	}
	for _, text := range []string{"23.3%", "-6.1F", "41 °F", "500gal", "12 kL", "2.5ton", "9.82lb/gal", "30gpm", "1.178", "88deg", "1e3", ".5e-1kg"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, bare, err := parsers[kind](text)
		if err != nil {
			require.Zero(t, got)
			require.False(t, bare)
			requirePrintable(t, err.Error())
			return
		}
		require.False(t, math.IsNaN(got) || math.IsInf(got, 0), "%v", got)
		// A limit written in another unit may be passed by its last digits.
		const digits = 1e-12
		require.GreaterOrEqual(t, got, low-digits*math.Abs(low))
		require.LessOrEqual(t, got, high+digits*math.Abs(high))
	})
}

func FuzzParseStrength(f *testing.F)        { fuzzParse(f, "strength", 0, 1) }
func FuzzParseTemperature(f *testing.F)     { fuzzParse(f, "temperature", 173.15, 423.15) }
func FuzzParseVolume(f *testing.F)          { fuzzParse(f, "volume", 0, 1e5) }
func FuzzParseMass(f *testing.F)            { fuzzParse(f, "weight", 0, 1e8) }
func FuzzParseDensity(f *testing.F)         { fuzzParse(f, "density", 1, 1e4) }
func FuzzParseFlow(f *testing.F)            { fuzzParse(f, "flow", 0, 10) }
func FuzzParseSpecificGravity(f *testing.F) { fuzzParse(f, "specific gravity", 0.5, 2) }
func FuzzParseSalometer(f *testing.F)       { fuzzParse(f, "salometer", -10, 120) }
func FuzzParseBaume(f *testing.F)           { fuzzParse(f, "baume", -10, 70) }

// FuzzParse puts any text through every parser: a number that is finite, or an error of
// one line.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"23.3%", "41F", "-5C", "500gal", "2.5ton", "9.82lb/gal", "30gal/min", "40gal/mi", "0.5gal/1000ft2", "$78/ton", "1.5h", "", "1e999", "0x10", "1,200gal", "\u202e5%"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		check(t, text, ParseStrength)
		check(t, text, ParseTemperature)
		check(t, text, ParseVolume)
		check(t, text, ParseMass)
		check(t, text, ParseDensity)
		check(t, text, ParseFlow)
		check(t, text, ParseSpecificGravity)
		check(t, text, ParseSalometer)
		check(t, text, ParseBaume)
		check(t, text, ParseLength)
		check(t, text, ParseWidth)
		check(t, text, ParseArea)
		check(t, text, ParseSpeed)
		check(t, text, ParseRatePerLength)
		check(t, text, ParseRatePerArea)
		check(t, text, ParsePower)
		check(t, text, ParseDuration)
		check(t, text, ParsePricePerVolume)
		check(t, text, ParsePricePerMass)
		check(t, text, ParseMoney)
	})
}

func check[Q ~float64](t *testing.T, text string, parse func(string) (Q, bool, error)) {
	t.Helper()
	q, _, err := parse(text)
	switch {
	case err == nil && !finite(float64(q)):
		t.Fatalf("%q is %g", text, float64(q))
	case err != nil && (q != 0 || strings.ContainsAny(err.Error(), "\n\r\x1b\x00")):
		t.Fatalf("%q: %g, %q", text, float64(q), err)
	}
}
