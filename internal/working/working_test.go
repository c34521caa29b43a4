package working

import (
	"math"
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/report"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Worked by hand.
func TestEvaluate(t *testing.T) {
	for text, want := range map[string]float64{
		"2 + 3 x 4":                          14,
		"(2 + 3) x 4":                        20,
		"1 - (3 - 5) - -1":                   4,
		"500 gal x 9.8 lb/gal / 2":           2450,
		"60 x 40 gal/min / (30 mph x 1)":     80,
		"-2.5 x 4%":                          -10,
		"8 gal/1000ft2 x 3":                  24,
		"100 x 5 lb / (2 lb + 3 lb)":         100,
		"1 + 0.00001 x (40 - 60)":            0.9998,
		"21 lb / (0.95 x (1 - 0.02)) + 0 lb": 21 / (0.95 * 0.98),
		"2 acre x 60 min / 3":                40,
	} {
		require.InDelta(t, want, Evaluate(text), 1e-12, text)
	}
	for _, text := range []string{"", "x 3", "2 +", "(2 + 3", "gal", "2 x "} {
		require.True(t, math.IsNaN(Evaluate(text)), text)
	}
}

func TestPlaceholders(t *testing.T) {
	for formula, want := range map[string]string{
		"volume x density":                                            "{} x {}",
		"weight x (target - strength) / target":                       "{} x ({} - {}) / {}",
		"1 + expansion a degree x (sample temperature - calibration)": "1 + {} x ({} - {})",
		"salt / (purity x (1 - moisture)) + dry salt":                 "{} / ({} x (1 - {})) + {}",
		"60 x flow / (speed x lanes)":                                 "60 x {} / ({} x {})",
		"-osmotic coefficient x ions x kg in a mol of water":          "-{} x {} x {}",
		"lower percent + (density - lower density) / (upper - lower)": "{} + ({} - {}) / ({} - {})",
		"rate x speed x lanes / 60":                                   "{} x {} x {} / 60",
	} {
		require.Equal(t, want, placeholders(formula), formula)
	}
}

// A sheet goes on from what it printed: 1/3 is 0.333333 from then on.
func TestSheetGoesOnFromPrintedNumbers(t *testing.T) {
	s := New(quantity.US)
	third := s.Step("A third", "one / three", "", Number(1, ""), Number(3, ""))
	whole := s.Step("Three of them", "third x three", "lb", third, Number(3, ""))
	require.Equal(t, 0.999999, whole.Value())
	require.Equal(t, []report.Step{
		{What: "A third", Formula: "one / three", Numbers: "1 / 3", Result: "0.333333"},
		{What: "Three of them", Formula: "third x three", Numbers: "0.333333 x 3", Result: "0.999999 lb"},
	}, s.Steps())
}

// Every result is that of its line, to the digits printed, whatever the terms.
func TestStepsAreTheirLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		term := func(name string) Term {
			unit := rapid.SampledFrom([]string{"", "%", "lb", "gal", "lb/gal"}).Draw(t, name+" unit")
			return Number(rapid.Float64Range(-1e7, 1e7).Draw(t, name), unit)
		}
		s := New(quantity.Metric)
		a, b, c := term("a"), term("b"), term("c")
		got := s.Step("", "a x (b - c) + a / 3", "kg", a, b, c, a)
		want := a.Value()*(b.Value()-c.Value()) + a.Value()/3
		require.Equal(t, rounded(want), got.Value())
		last := s.Steps()[0]
		require.InDelta(t, got.Value(), Evaluate(last.Numbers), 1e-5*math.Abs(got.Value())+1e-300)
	})
}

// A line with too few or too many terms is a mistake of the program.
func TestTermsMustFit(t *testing.T) {
	require.Panics(t, func() { New(quantity.US).Step("", "a x b", "", Number(1, "")) })
	require.Panics(t, func() { New(quantity.US).Step("", "a", "", Number(1, ""), Number(1, "")) })
}

func TestDensityAndBack(t *testing.T) {
	for _, system := range []quantity.System{quantity.US, quantity.Metric} {
		s := New(system)
		require.InEpsilon(t, 1176.4, float64(s.DensityOf(s.Density(1176.4))), 1e-5)
	}
}

func TestSumAndLeast(t *testing.T) {
	s := New(quantity.US)
	require.Equal(t, Number(2, "lb"), s.Sum("All", "sum", Number(2, "lb")))
	require.Empty(t, s.Steps())
	require.Equal(t, Number(7, "lb"), s.Sum("All", "sum", Number(2, "lb"), Number(5, "lb")))
	require.Equal(t, "2 lb + 5 lb", s.Steps()[0].Numbers)
	require.Equal(t, 2.0, s.Least("To load", "the less", Number(3, ""), Number(2, "")).Value())
	require.Equal(t, 0.693147, s.Logarithm("ln", Number(2, "")).Value())
}
