package quantity

import (
	"math"
	"strconv"
	"strings"
)

// shown puts together a Shown whose digits a rounding rule chooses.
func shown(value float64, unit string, rule func(float64) string) Shown {
	if !finite(value) {
		return Shown{Value: value, Unit: unit, Words: "none"}
	}
	return Shown{Value: value, Unit: unit, rule: rule}
}

// Fixed rounds to a number of decimals and groups thousands.
func Fixed(x float64, decimals int) string { return fixed(x, decimals) }

// fixed rounds to a number of decimals, groups thousands, and never shows a
// negative zero.
func fixed(x float64, decimals int) string {
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

func whole(x float64) string       { return fixed(x, 0) }
func tenths(x float64) string      { return fixed(x, 1) }
func hundredths(x float64) string  { return fixed(x, 2) }
func thousandths(x float64) string { return fixed(x, 3) }

// tenthsIfAny shows a tenth only where there is one: 41, -6.1.
func tenthsIfAny(x float64) string { return strings.TrimSuffix(fixed(x, 1), ".0") }

// hundredthsIfAny shows hundredths without closing zeros: 22.65, 23.3, 24.
func hundredthsIfAny(x float64) string {
	return strings.TrimSuffix(strings.TrimRight(fixed(x, 2), "0"), ".")
}

// flowing shows hundredths below ten and tenths above, where there are any.
func flowing(x float64) string {
	if math.Abs(x) < 9.995 {
		return hundredthsIfAny(x)
	}
	return tenthsIfAny(x)
}

// loaded shows a tenth below ten and whole numbers above, and hundredths of next to
// nothing.
func loaded(x float64) string {
	switch a := math.Abs(x); {
	case a > 0 && a < 0.095:
		return hundredths(x)
	case a < 9.95:
		return tenths(x)
	}
	return whole(x)
}

// bucket shows pounds to 5, as they are loaded, to 1 below 20, and to a tenth below
// one.
func bucket(x float64) string {
	switch a := math.Abs(x); {
	case a > 0 && a < 0.95:
		return tenths(x)
	case a < 20:
		return whole(x)
	}
	return whole(5 * math.Round(x/5))
}

// Decimals returns how many places behind the point digits show.
func Decimals(digits string) int {
	if _, after, ok := strings.Cut(digits, "."); ok {
		return len(after)
	}
	return 0
}
