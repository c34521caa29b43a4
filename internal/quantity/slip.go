package quantity

import (
	"fmt"
	"strconv"
	"strings"
)

// This file catches numbers that are likelier slips than what they say. The ranges are common practice, no
// source.

const (
	fractionFrom, fractionTo = 0.02, 0.40  // a strength as a part of one
	gravityFrom, gravityTo   = 1.005, 1.25 // brine
	thousandsTo              = 1000 * 1.25 // the same without its point
	tenfoldTo                = 400         // a percent without its point
	percentFrom, percentTo   = 5, 40       // where a gravity is meant
	wetFractionTo            = 0.1         // of moisture in percent: a part of one
)

// ParseTypedStrength is ParseStrength for what people type: it refuses, with the likely meaning, a bare number that
// is likelier a part of one (0.233) or a gravity (1.178), and a percent without its point (233).
func ParseTypedStrength(text string) (Strength, bool, error) {
	s, bare, err := ParseStrength(text)
	x, number := bareNumber(text)
	switch {
	case err != nil && x > 100 && x <= tenfoldTo:
		return 0, false, fmt.Errorf("%w; did you mean %s%%?", err, shortest(x/10))
	case err != nil && number && x >= 1000*gravityFrom && x <= thousandsTo:
		return 0, false, fmt.Errorf("%w; a gravity of %s goes with --sg", err, shortest(x/1000))
	case err != nil || !bare:
		return s, bare, err
	case x >= fractionFrom && x <= fractionTo:
		return 0, false, fmt.Errorf("is that %s%% or %s%%? allowed: with the percent sign", shortest(x), shortest(100*x))
	case likelyGravity(text):
		return 0, false, fmt.Errorf("is that %s%%, or a gravity? allowed: with the percent sign, or --sg %s", shortest(x), shortest(x))
	}
	return s, bare, nil
}

// ParseTypedMoisture is ParseStrength for the moisture of salt: it refuses a bare number that is likelier a part of
// one (0.016).
func ParseTypedMoisture(text string) (Strength, bool, error) {
	s, bare, err := ParseStrength(text)
	if x, _ := bareNumber(text); err == nil && bare && x > 0 && x < wetFractionTo {
		return 0, false, fmt.Errorf("is that %s%% or %s%%? allowed: with the percent sign", shortest(x), shortest(100*x))
	}
	return s, bare, err
}

// ParseTypedGravity is ParseSpecificGravity for what people type: it refuses, with the likely meaning, a percent (23.3),
// and a gravity without its point (1178).
func ParseTypedGravity(text string) (SpecificGravity, bool, error) {
	g, bare, err := ParseSpecificGravity(text)
	x, number := bareNumber(text)
	switch {
	case err == nil || !number && !strings.Contains(text, "%"):
	case x >= percentFrom && x <= percentTo:
		err = fmt.Errorf("%w; a percent reading goes with --hydrometer", err)
	case x >= 1000*gravityFrom && x <= thousandsTo:
		err = fmt.Errorf("%w; did you mean %s?", err, shortest(x/1000))
	}
	return g, bare, err
}

// ParseTypedBaume is ParseBaume for what people type: it refuses, with the likely meaning, a bare gravity (1.178).
func ParseTypedBaume(text string) (BaumeDegrees, bool, error) {
	if likelyGravity(text) {
		return 0, false, gravityDegrees(text)
	}
	return ParseBaume(text)
}

// ParseTypedSalometer is ParseSalometer for what people type, likewise.
func ParseTypedSalometer(text string) (SalometerDegrees, bool, error) {
	if likelyGravity(text) {
		return 0, false, gravityDegrees(text)
	}
	return ParseSalometer(text)
}

func gravityDegrees(text string) error {
	text = strings.TrimSpace(text)
	return fmt.Errorf("is that %s degrees, or a gravity? allowed: with its unit, like %sdeg, or --sg %s", text, text, text)
}

// likelyGravity reports whether a bare number looks like the gravity of a brine: 1.178.
func likelyGravity(text string) bool {
	x, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	return err == nil && x >= gravityFrom && x <= gravityTo && decimals(text) > 1
}

// bareNumber is the number in a text, and whether there is nothing else but a percent sign.
func bareNumber(text string) (float64, bool) {
	x, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), "%"), 64)
	return x, err == nil
}

func shortest(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

// decimals returns how many digits stand behind the point.
func decimals(text string) int { return Decimals(strings.TrimSpace(text)) }
