package quantity

import (
	"math"
	"strconv"
	"strings"
)

// shown returns a Shown with a rule for its digits. A value that is not a finite number
// is shown as none.
func shown(value float64, unit string, rule func(float64) string) Shown {
	if !finite(value) {
		return Shown{Value: value, Unit: unit, Words: "none"}
	}
	return Shown{Value: value, Unit: unit, rule: rule}
}

// metric is shown for a metric crew, with thousands set off by a space.
func metric(value float64, unit string, rule func(float64) string) Shown {
	s := shown(value, unit, rule)
	s.spaced = true
	return s
}

// Fixed rounds to a number of decimals, groups thousands, and never shows a negative
// zero.
func Fixed(x float64, decimals int) string {
	text := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	point := strings.IndexByte(text, '.')
	if point < 0 {
		point = len(text)
	}
	for i := point - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	if x < 0 && strings.Trim(text, "0.,") != "" {
		return "-" + text
	}
	return text
}

func whole(x float64) string       { return Fixed(x, 0) }
func tenths(x float64) string      { return Fixed(x, 1) }
func hundredths(x float64) string  { return Fixed(x, 2) }
func thousandths(x float64) string { return Fixed(x, 3) }

// tenthsIfAny shows a tenth unless it is zero: 41, -6.1.
func tenthsIfAny(x float64) string { return strings.TrimSuffix(Fixed(x, 1), ".0") }

// hundredthsIfAny shows hundredths without closing zeros: 22.65, 23.3, 24.
func hundredthsIfAny(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(Fixed(x, 2), "0"), ".")
}

// driven shows a way to tenths, as the trip meter of a truck does, and one below 1 to hundredths.
func driven(x float64) string {
	if math.Abs(x) < 0.995 {
		return hundredthsIfAny(x)
	}
	return tenthsIfAny(x)
}

// flowing shows hundredths below ten and tenths above, without closing zeros.
func flowing(x float64) string {
	if math.Abs(x) < 9.995 {
		return hundredthsIfAny(x)
	}
	return tenthsIfAny(x)
}

// loaded shows hundredths below a tenth, tenths below ten, and whole numbers above.
func loaded(x float64) string {
	switch a := math.Abs(x); {
	case a > 0 && a < 0.095:
		return hundredths(x)
	case a < 9.95:
		return tenths(x)
	}
	return whole(x)
}

// bucket shows tenths below one, whole numbers below 20, and multiples of 5 above, as
// salt is loaded.
func bucket(x float64) string {
	switch a := math.Abs(x); {
	case a > 0 && a < 0.95:
		return tenths(x)
	case a < 20:
		return whole(x)
	}
	return whole(5 * math.Round(x/5))
}

// Decimals returns the number of decimals in digits.
func Decimals(digits string) int {
	if _, after, ok := strings.Cut(digits, "."); ok {
		return len(after)
	}
	return 0
}
