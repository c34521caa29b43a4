package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A bare number is percent. Strengths are small, so a slip by 100 would show.
func TestParseStrength(t *testing.T) {
	requireParses(t, "strength", []accepted{
		{"23.3%", 0.233, false},
		{"23.3 %", 0.233, false},
		{"23.3pct", 0.233, false},
		{"23.3 PCT", 0.233, false},
		{"23.3", 0.233, true},
		{" 23.3 ", 0.233, true},
		{"+23.3", 0.233, true},
		{"0.233", 0.00233, true},
		{".5", 0.005, true},
		{"5.", 0.05, true},
		{"0", 0, true},
		{"-0", 0, true},
		{"100%", 1, false},
		{"2.33e1%", 0.233, false},
	})
}

// The kelvins of -6 F and 41 F are worked out by hand: 273.15 + (F - 32) / 1.8.
func TestParseTemperature(t *testing.T) {
	requireParses(t, "temperature", []accepted{
		{"41F", 278.15, false},
		{"41 f", 278.15, false},
		{"41°F", 278.15, false},
		{"41 °f", 278.15, false},
		{"41degF", 278.15, false},
		{"41 DEGF", 278.15, false},
		{"41", 278.15, true},
		{"-6F", 273.15 - 38/1.8, false},
		{"-40", 233.15, true},
		{"-40C", 233.15, false},
		{"5C", 278.15, false},
		{"5c", 278.15, false},
		{"5 °C", 278.15, false},
		{"5degC", 278.15, false},
		{"278.15K", 278.15, false},
		{"278.15 k", 278.15, false},
		{"\t41\u00a0F\n", 278.15, false}, // spaces of any kind
	})
}

func TestParseVolume(t *testing.T) {
	requireParses(t, "volume", []accepted{
		{"500", 1.892705892, true},
		{"500gal", 1.892705892, false},
		{"500 Gals", 1.892705892, false},
		{"1 gallon", 3.785411784e-3, false},
		{"2 GALLONS", 7.570823568e-3, false},
		{"1900L", 1.9, false},
		{"1900l", 1.9, false},
		{"1 liter", 1e-3, false},
		{"2 liters", 2e-3, false},
		{"1 litre", 1e-3, false},
		{"2 litres", 2e-3, false},
		{"12kL", 12, false},
		{"12 KL", 12, false},
		{"12m3", 12, false},
		{"12 M3", 12, false},
		{"1.2e3L", 1.2, false},
		{"1.2E+3L", 1.2, false},
		{"12000e-3 L", 12e-3, false},
		{"5e-400", 0, true}, // too small for a float64, hence nothing
	})
}

func TestParseMass(t *testing.T) {
	requireParses(t, "weight", []accepted{
		{"1300", 1300 * 0.45359237, true},
		{"1300lb", 1300 * 0.45359237, false},
		{"1300 LBS", 1300 * 0.45359237, false},
		{"600kg", 600, false},
		{"600 Kg", 600, false},
		{"2.5ton", 5000 * 0.45359237, false},
		{"2.5 tons", 5000 * 0.45359237, false},
		{"2.5t", 2500, false},
		{"1 tonne", 1000, false},
		{"2 tonnes", 2000, false},
	})
}

func TestParseDensity(t *testing.T) {
	const poundPerGallon = 0.45359237 / 3.785411784e-3
	requireParses(t, "density", []accepted{
		{"9.82", 9.82 * poundPerGallon, true},
		{"9.82lb/gal", 9.82 * poundPerGallon, false},
		{"9.82 LB/GAL", 9.82 * poundPerGallon, false},
		{"1177kg/m3", 1177, false},
		{"1177 g/L", 1177, false},
		{"1.177kg/L", 1177, false},
		{"1.177g/mL", 1177, false},
		{"1.177 g/cm3", 1177, false},
	})
}

func TestParseFlow(t *testing.T) {
	const gallonPerMinute = 3.785411784e-3 / 60
	requireParses(t, "flow", []accepted{
		{"30", 30 * gallonPerMinute, true},
		{"30gal/min", 30 * gallonPerMinute, false},
		{"30 GPM", 30 * gallonPerMinute, false},
		{"120L/min", 0.002, false},
		{"2 l/s", 0.002, false},
		{"7.2m3/h", 0.002, false},
		{"0.002 m3/s", 0.002, false},
		{"0", 0, true},
	})
}

// Scales without a unit, and degrees.
func TestParseScales(t *testing.T) {
	requireParses(t, "specific gravity", []accepted{
		{"1.178", 1.178, true}, {"+1.178", 1.178, true}, {" 1 ", 1, true}, {"1178e-3", 1.178, true},
	})
	for _, kind := range []string{"salometer", "baume"} {
		requireParses(t, kind, []accepted{
			{"21.9", 21.9, true}, {"21.9deg", 21.9, false}, {"21.9 DEG", 21.9, false}, {"-1.5", -1.5, true},
		})
	}
}

// The ends of each range are reached, in SI and in US units, and not passed.
func TestRanges(t *testing.T) {
	for _, c := range []struct {
		kind            string
		inside, outside []string
	}{
		{"strength", []string{"0", "100%"}, []string{"-0.001", "100.001%"}},
		{"temperature", []string{"-100C", "-148F", "150C", "302F", "173.15K"}, []string{"-100.001C", "-148.001F", "150.001C", "302.001F", "0K"}},
		{"volume", []string{"0", "100000m3", "1e8L"}, []string{"-0.001", "100000.001m3", "1e308"}},
		{"weight", []string{"0", "1e8kg", "100000t"}, []string{"-0.001", "100000.001t"}},
		{"density", []string{"1kg/m3", "10000kg/m3", "10kg/L"}, []string{"0", "0.999kg/m3", "10000.01kg/m3", "-9.82"}},
		{"flow", []string{"0", "10m3/s", "10000L/s"}, []string{"-0.001", "10.00001m3/s"}},
		{"specific gravity", []string{"0.5", "2"}, []string{"0.499", "2.001", "0", "-1"}},
		{"salometer", []string{"-10", "120"}, []string{"-10.001", "120.001"}},
		{"baume", []string{"-10", "70"}, []string{"-10.001", "70.001"}},
	} {
		for _, text := range c.inside {
			_, _, err := parsers[c.kind](text)
			require.NoError(t, err, "%s %s", c.kind, text)
		}
		for _, text := range c.outside {
			_, _, err := parsers[c.kind](text)
			require.ErrorContains(t, err, "out of range; allowed: ", "%s %s", c.kind, text)
		}
	}
}
