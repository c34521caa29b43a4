package quantity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// junk is no quantity of any kind.
var junk = []string{
	"", " ", "\n", ".", "+", "-", "%", "e5", "five", "½",
	"nan", "NaN", "+nan", "inf", "+Inf", "-inf", "infinity", // words that Go reads as numbers
	"0x10", "0x1p4", "0b1", "1_000", // as Go and TOML write numbers
	"1,000", "1,5", "1 ,5", ",5", "1.000,5",
	"1e308", "-1e308", "1e999", "-1e999", "1e99999999999999999999", strings.Repeat("9", 400),
	"--5", "+-5", "- 5", "5-", "5..", "1.2.3", "5e", "5e+", "1 e3", "5 5",
	"５", "٥", "−5", // digits and a minus that are not ASCII
	"5\x00", "\x005", "5\x1b[31m", "5\u202e", "\u202e5", "5\xff", "\xff",
	"5 furlong", "5 % %", "5gal gal", "5 " + strings.Repeat("x", 1<<16), strings.Repeat("\u202e", 1000),
}

// A refused text gives zero, and a message that is safe to print.
func TestJunkIsRefused(t *testing.T) {
	for kind, parse := range parsers {
		for _, text := range junk {
			got, bare, err := parse(text)
			require.Error(t, err, "%s %.40q", kind, text)
			require.Zero(t, got, "%s %.40q", kind, text)
			require.False(t, bare, "%s %.40q", kind, text)
			requirePrintable(t, err.Error())
		}
	}
}

// errorTexts are the exact words: what is wrong, and what may be written instead.
var errorTexts = []struct{ kind, text, want string }{
	{"strength", "", "not a strength; write it like 23.3%"},
	{"strength", "23,3%", "a strength takes no commas; write it like 23.3%"},
	{"strength", "23.3lb", `"lb" is no unit of a strength; allowed: %`},
	{"strength", "101", "out of range; allowed: 0% to 100%"},
	{"temperature", "nan", "not a temperature; write it like 41F or 5C"},
	{"temperature", "1,000", "a temperature takes no commas; write it like 41F or 5C"},
	{"temperature", "41 R", `"R" is no unit of a temperature; allowed: F, C, K`},
	{"temperature", "500F", "out of range; allowed: -148F to 302F"},
	{"volume", "inf", "not a volume; write it like 500gal or 1900L"},
	{"volume", "1,000gal", "a volume takes no commas; write it like 500gal or 1900L"},
	{"volume", "1_000", `"_000" is no unit of a volume; allowed: gal, L, kL, m3`},
	{"volume", "0x10", `"x10" is no unit of a volume; allowed: gal, L, kL, m3`},
	{"volume", "1e999", "out of range; allowed: 0gal to 26417205gal"},
	{"weight", "heavy", "not a weight; write it like 1300lb or 600kg"},
	{"weight", "1,300", "a weight takes no commas; write it like 1300lb or 600kg"},
	{"weight", "5 stone", `"stone" is no unit of a weight; allowed: lb, kg, ton, t, g, oz`},
	{"weight", "-5", "out of range; allowed: 0lb to 220462262lb"},
	{"density", "1.2.3", "not a density; write it like 9.82lb/gal or 1177kg/m3"},
	{"density", "9,82", "a density takes no commas; write it like 9.82lb/gal or 1177kg/m3"},
	{"density", "9.82lb", `"lb" is no unit of a density; allowed: lb/gal, kg/m3, kg/L`},
	{"density", "0", "out of range; allowed: 0.008345lb/gal to 83.45lb/gal"},
	{"flow", "--5", "not a flow; write it like 30gal/min or 110L/min"},
	{"flow", "3,0", "a flow takes no commas; write it like 30gal/min or 110L/min"},
	{"flow", "30gal", `"gal" is no unit of a flow; allowed: gal/min, L/min, L/s, m3/h, m3/s`},
	{"flow", "-1", "out of range; allowed: 0gal/min to 158503gal/min"},
	{"specific gravity", "x", "not a specific gravity; write it like 1.178"},
	{"specific gravity", "1,178", "a specific gravity takes no commas; write it like 1.178"},
	{"specific gravity", "1.178%", `"%" is no unit of a specific gravity; allowed: a plain number`},
	{"specific gravity", "1178", "out of range; allowed: 0.5 to 2"},
	{"salometer", "x", "not a salometer reading; write it like 88"},
	{"salometer", "88,3", "a salometer reading takes no commas; write it like 88"},
	{"salometer", "88%", `"%" is no unit of a salometer reading; allowed: deg`},
	{"salometer", "121", "out of range; allowed: -10deg to 120deg"},
	{"baume", "x", "not a Baume reading; write it like 21.9"},
	{"baume", "21,9", "a Baume reading takes no commas; write it like 21.9"},
	{"baume", "21.9F", `"F" is no unit of a Baume reading; allowed: deg`},
	{"baume", "71", "out of range; allowed: -10deg to 70deg"},
}

func TestErrorTexts(t *testing.T) {
	for _, c := range errorTexts {
		_, _, err := parsers[c.kind](c.text)
		require.EqualError(t, err, c.want, "%s %q", c.kind, c.text)
	}
}

// A unit is quoted with escapes, and cut after 24 letters.
func TestUnknownUnitIsShownSafely(t *testing.T) {
	const allowed = " is no unit of a volume; allowed: gal, L, kL, m3"
	for unit, want := range map[string]string{
		"\x1b[31m":                `"\x1b[31m"`,
		"\u202egal":               `"\u202egal"`,
		"g\na":                    `"g\na"`,
		strings.Repeat("ü", 24):   `"` + strings.Repeat("ü", 24) + `"`,
		strings.Repeat("ü", 25):   `"` + strings.Repeat("ü", 24) + `..."`,
		strings.Repeat("x", 1000): `"` + strings.Repeat("x", 24) + `..."`,
	} {
		_, _, err := ParseVolume("5 " + unit)
		require.EqualError(t, err, want+allowed)
	}
}

func TestParseSystem(t *testing.T) {
	for _, sys := range []System{US, Metric} {
		got, err := ParseSystem(sys.String())
		require.NoError(t, err)
		require.Equal(t, sys, got)
	}
	for _, text := range []string{"", " us", "si", "us\n"} {
		_, err := ParseSystem(text)
		require.EqualError(t, err, "unknown units; allowed: us, metric", "%q", text)
	}
}
