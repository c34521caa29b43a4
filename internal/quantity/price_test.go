package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// A price per m3 is higher than per gallon, by 1 over the gallon.
func TestParsePricePerVolume(t *testing.T) {
	const perGallon = 1 / 3.785411784e-3
	requireParses(t, "price of a volume", []accepted{
		{"0.85", 0.85 * perGallon, true},
		{"$0.85", 0.85 * perGallon, true},
		{" $ 0.85 /gal ", 0.85 * perGallon, false},
		{"0.85/GAL", 0.85 * perGallon, false},
		{"0.22/L", 220, false},
		{"220/kL", 220, false},
		{"220 /m3", 220, false},
		{"0", 0, true},
	})
}

func TestParsePricePerMass(t *testing.T) {
	const pound = 0.45359237
	requireParses(t, "price of a weight", []accepted{
		{"78", 78 / (2000 * pound), true},
		{"$78/ton", 78 / (2000 * pound), false},
		{"78 /TON", 78 / (2000 * pound), false},
		{"0.04/lb", 0.04 / pound, false},
		{"86/t", 0.086, false},
		{"86/tonne", 0.086, false},
		{"0.086/kg", 0.086, false},
	})
}

func TestPriceErrorTexts(t *testing.T) {
	for _, c := range []struct{ kind, text, want string }{
		{"price of a volume", "$", "not a price; write it like 0.85/gal or 220/kL"},
		{"price of a volume", "$$1", "not a price; write it like 0.85/gal or 220/kL"},
		{"price of a volume", "1,5", "a price takes no commas; write it like 0.85/gal or 220/kL"},
		{"price of a volume", "1/ton", `"/ton" is no unit of a price; allowed: /gal, /L, /kL`},
		{"price of a volume", "-1", "out of range; allowed: 0/gal to 3785412/gal"},
		{"price of a weight", "€78", "not a price; write it like 78/ton or 86/t"},
		{"price of a weight", "78,5", "a price takes no commas; write it like 78/ton or 86/t"},
		{"price of a weight", "78 ton", `"ton" is no unit of a price; allowed: /ton, /t, /lb, /kg`},
		{"price of a weight", "$-78", "out of range; allowed: 0/ton to 907184740/ton"},
	} {
		_, _, err := parsers[c.kind](c.text)
		require.EqualError(t, err, c.want, "%q", c.text)
	}
}

func TestPriceRanges(t *testing.T) {
	for kind, ends := range map[string][2]string{
		"price of a volume": {"1000000/L", "1000000.1/L"},
		"price of a weight": {"1000000/kg", "1000000.1/kg"},
	} {
		_, _, err := parsers[kind](ends[0])
		require.NoError(t, err)
		_, _, err = parsers[kind](ends[1])
		require.ErrorContains(t, err, "out of range")
	}
}

// Cents of a price by the ton, tenths of a cent by the gallon.
func TestPriceDigits(t *testing.T) {
	ton := PricePerMass(78.004 / (2000 * 0.45359237))
	requireShown(t, ton, US, "78.00/ton")
	requireShown(t, ton, Metric, "85.98/t") // 78.004 over 0.90718474, which is a short ton in tonnes
	gallon := PricePerVolume(0.85 / 3.785411784e-3)
	requireShown(t, gallon, US, "0.850/gal")
	requireShown(t, gallon, Metric, "0.225/L")
	for _, q := range []Quantity{PricePerMass(math.NaN()), PricePerVolume(math.NaN())} {
		require.Equal(t, "none", q.In(US).Digits())
		require.Equal(t, "none", q.In(Metric).Digits())
	}
}

func TestPriceRoundTrip(t *testing.T) {
	requireRoundTrip(t, ParsePricePerVolume, 0, 1e9)
	requireRoundTrip(t, ParsePricePerMass, 0, 1e6)
}

func FuzzParsePricePerVolume(f *testing.F) { fuzzParse(f, "price of a volume", 0, 1e9) }
func FuzzParsePricePerMass(f *testing.F)   { fuzzParse(f, "price of a weight", 0, 1e6) }
