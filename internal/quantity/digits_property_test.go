package quantity

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawNumber draws numbers of every size from a thousandth to ten million.
func drawNumber(t *rapid.T, name string) float64 {
	size := math.Pow10(rapid.IntRange(-3, 6).Draw(t, name+" size"))
	return size * rapid.Float64Range(-10, 10).Draw(t, name)
}

// rules are the rounding rules with the step that each takes at a number.
var rules = map[string]struct {
	digits func(float64) string
	step   func(float64) float64
}{
	"whole":           {whole, steps(1)},
	"tenths":          {tenths, steps(0.1)},
	"hundredths":      {hundredths, steps(0.01)},
	"thousandths":     {thousandths, steps(0.001)},
	"tenthsIfAny":     {tenthsIfAny, steps(0.1)},
	"hundredthsIfAny": {hundredthsIfAny, steps(0.01)},
	"loaded":          {loaded, func(x float64) float64 { return below(x, 9.95, 0.1, 1) }},
	"bucket":          {bucket, func(x float64) float64 { return below(x, 20, 1, 5) }},
}

func steps(step float64) func(float64) float64 { return func(float64) float64 { return step } }

func below(x, limit, fine, coarse float64) float64 {
	if math.Abs(x) < limit {
		return fine
	}
	return coarse
}

var grouped = regexp.MustCompile(`^-?[0-9]{1,3}(,[0-9]{3})*(\.[0-9]+)?$`)

// readDigits parses digits.
func readDigits(t *rapid.T, digits string) float64 {
	require.Regexp(t, grouped, digits)
	x, err := strconv.ParseFloat(strings.ReplaceAll(digits, ",", ""), 64)
	require.NoError(t, err)
	require.False(t, x == 0 && digits[0] == '-', "a negative zero: %s", digits)
	return x
}

// The larger of two numbers is never shown as the smaller one, whether they are
// far apart or close.
func TestRoundingKeepsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := drawNumber(t, "x")
		far := math.Abs(drawNumber(t, "far"))
		near := rapid.Float64Range(0, 1).Draw(t, "near")
		for name, rule := range rules {
			for _, y := range []float64{x + far, x + near} {
				require.LessOrEqual(t, readDigits(t, rule.digits(x)), readDigits(t, rule.digits(y)), "%s of %v and %v", name, x, y)
			}
		}
	})
}

// Rounding errs by half a step at most.
func TestRoundingIsToTheNearest(t *testing.T) {
	const digits = 1e-9 // of the number, for its last digits
	rapid.Check(t, func(t *rapid.T) {
		x := drawNumber(t, "x")
		for name, rule := range rules {
			require.InDelta(t, x, readDigits(t, rule.digits(x)), rule.step(x)/2+digits*math.Abs(x), name)
		}
	})
}

// The IfAny rules leave no zero behind the point.
func TestNoClosingZeros(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := float64(rapid.IntRange(-1000000, 1000000).Draw(t, "hundredths")) / 100
		for _, digits := range []string{tenthsIfAny(x), hundredthsIfAny(x)} {
			if strings.Contains(digits, ".") {
				require.NotRegexp(t, `[0.]$`, digits)
			}
		}
		require.InDelta(t, x, readDigits(t, hundredthsIfAny(x)), 1e-9) // nothing but zeros was cut
	})
}
