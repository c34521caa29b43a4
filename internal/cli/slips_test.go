package cli

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// slips are what a tired hand types, each with its answer: what is refused names the likely meaning, and what can be
// meant is taken so.
var slips = []struct{ line, says string }{
	// A strength that is none.
	{"reading --hydrometer 0.233 --temp 40F", "0.233% or 23.3%"},
	{"reading --hydrometer 0.24 --temp 40F", "0.24% or 24%"},
	{"reading --hydrometer 233 --temp 40F", "did you mean 23.3%?"},
	{"reading --hydrometer 233% --temp 40F", "did you mean 23.3%?"},
	{"reading --hydrometer 1.178 --temp 40F", "--sg 1.178"},
	{"reading --hydrometer 1178 --temp 40F", "a gravity of 1.178 goes with --sg"},
	{"reading --hydrometer 88 --temp 40F", "no salt brine at 40 F shows that"},
	{"reading --hydrometer 9.82lb/gal --temp 40F", "is no unit of a strength"},
	{"reading --sg 23.3 --temp 40F", "a percent reading goes with --hydrometer"},
	{"reading --sg 23.3% --temp 40F", "a percent reading goes with --hydrometer"},
	{"reading --sg 1178 --temp 40F", "did you mean 1.178?"},
	{"reading --salometer 23.3% --temp 40F", "is no unit of a salometer reading"},
	{"reading --baume 1.178 --temp 40F", "is that 1.178 degrees, or a gravity?"},
	{"reading --salometer 1.178 --temp 40F", "or --sg 1.178"},
	{"reading --weigh 1177 --temp 40F", "out of range; allowed: 0.008345lb/gal to 83.45lb/gal"},
	{"reading --weigh 1.177 --temp 40F", "no salt brine at 40 F shows that"},
	{"reading --weigh 1177 --temp 4 --units metric", "True strength"},
	{"reading --weigh 1.177 --temp 4 --units metric", "True strength"},
	{"check --volume 500gal --hydrometer 23% --temp 40F --to 0.233", "0.233% or 23.3%"},
	{"check --volume 500gal --hydrometer 23% --temp 40F --low 0.23", "0.23% or 23%"},
	{"correct --volume 500gal --strength 0.26", "0.26% or 26%"},
	{"correct --volume 500gal --strength 1.196", "--sg 1.196"},
	{"correct --volume 500gal --strength 21% --stock 0.26", "0.26% or 26%"},
	{"batch --volume 500gal --to 1.178", "--sg 1.178"},
	{"batch --volume 500gal --moisture 0.016", "0.016% or 1.6%"},
	{"batch --volume 500gal --purity 0.96", "allowed: 50% to 100%"},
	{"freeze --nacl 0.233", "0.233% or 23.3%"},
	{"store 6000gal@0.231 800gal@25%", "0.231% or 23.1%"},
	{"blend 80:brine@0.233 20:cacl2@32%", "0.233% or 23.3%"},
	{"ready 0=0.12 20=0.185 --temp 45F", "0.12% or 12%"},
	// A temperature of the other crew, or of no glass.
	{"reading --hydrometer 23% --temp 4 --units metric", "at 4 C"},
	{"reading --hydrometer 23% --temp 40 --units metric", "at 40 C"},
	{"reading --hydrometer 23% --temp 60 --units metric", "allowed: -25 C to 50 C"},
	{"reading --hydrometer 23% --temp 4", "has no unit and was read as 4 F"},
	{"reading --hydrometer 23% --temp 40F --cal 20", "no glass is marked for 20 F; allowed: with its unit, like 20F or 20C"},
	{"reading --hydrometer 23% --temp 40F --cal 60 --units metric", "no glass is marked for 60 C; allowed: with its unit, like 60F or 60C"},
	{"reading --hydrometer 23% --temp 40F --cal 20F", "is yours for 20 F?"},
	{"reading --hydrometer 23% --temp 40F --cal 20C", "True strength"},
	// Numbers as they are printed, and as they cannot be.
	{"correct --volume 1,750gal --strength 25%", "1,750 gal at 25%"},
	{"correct --volume 1,750 --strength 25%", "1,750 gal at 25%"},
	{"correct --volume |1 200 L| --strength 25% --units metric", "1 200 L at 25%"},
	{"correct --volume 1,200L --strength 25% --units metric", "1,200 is unclear; allowed: 1 200 or 1.2"},
	{"correct --volume 500gal --strength 23,9%", "500 gal at 23.9%"},
	{"correct --volume 500gal --strength 2,3,9%", "a strength takes no commas"},
	{"reading --sg 1,178 --temp 40F", "did you mean 1.178?"},
	{"reading --baume 21,9 --temp 15C", "True strength"},
	// A flag twice, and words left over.
	{"correct --volume 500gal --volume 600gal --strength 25%", "given twice, as \"500gal\" and as \"600gal\"; allowed: once"},
	{"correct --volume 500gal --strength 25% --strength 26%", "given twice"},
	{"reading --hydrometer 23% --temp 40F --cal 60F --cal 68F", "given twice"},
	{"batch --volume 500gal --to 23% --to 24%", "given twice"},
	{"check --volume 500gal --tank a --tank b --hydrometer 23% --temp 40F", "given twice"},
	{"check --volume 500gal --hydrometer 23.1% --hydrometer 24.2% --temp 60F", "the samples lie 1.1% apart"},
	{"check --volume 500gal --hydrometer 23.1% --hydrometer 23.4% --temp 60F", "the mean of 2 samples"},
	{"check --volume 500gal --hydrometer 23% --sg 1.18 --temp 40F", "two readings"},
	{"check --volume 500gal --hydrometer 23% --temp 40F --temp 41F", "2 temperatures for 1 readings"},
	{"reading --hydrometer 23.3 % --temp 40F", "unexpected word \"%\""},
	{"check --volume 500 gal --hydrometer 23% --temp 40F", "unexpected word \"gal\""},
	{"correct --volume 500gal 25% --strength 25%", "unexpected word \"25%\""},
	// Saturation, wherever it is.
	{"correct --volume 500gal --strength 28% --temp 110F", "no brine at 110 F is that strong; allowed: 0% to 26.76% (saturated)"},
	{"correct --volume 500gal --strength 26.9% --temp 120F", "no brine at 120 F is that strong"},
	{"batch --volume 500gal --to 27%", "no brine at 50 F is that strong"},
	// Instruments that are none.
	{"reading --hydrometer 23% --temp 40F --glass-division 0", "marks lie apart; allowed: above 0"},
	{"reading --hydrometer 23% --temp 40F --thermometer-division 0F", "marks lie apart; allowed: above 0"},
	{"reading --hydrometer 23% --temp 40F --offset-sure -0.1", "less than zero; allowed: 0 and above"},
	{"reading --hydrometer 23% --temp 40F --glass stick", "no such instrument in the yard file"},
}

func TestSlipsHaveTheirAnswers(t *testing.T) {
	require.GreaterOrEqual(t, len(slips), 60)
	for _, s := range slips {
		status, out, errs := invoke(t, lineFields(s.line)...)
		require.Contains(t, oneLine(out+errs), s.says, s.line)
		if status != 0 {
			require.Equal(t, 2, status, s.line)
			require.Empty(t, out, s.line)
		}
	}
}

// lineFields splits a line into words; between strokes a space belongs to the word.
func lineFields(line string) []string {
	var all []string
	for i, part := range strings.Split(line, "|") {
		if i%2 == 1 {
			all = append(all, part)
			continue
		}
		all = append(all, strings.Fields(part)...)
	}
	return all
}
