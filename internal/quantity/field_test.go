package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Source: NIST SP 811 (from memory): foot 0.3048 m and mile 5,280 ft, exact; acre
// 43,560 ft2; horsepower 550 ft lbf/s, with standard gravity 9.80665 m/s2.
func TestFieldUnits(t *testing.T) {
	for text, want := range map[string]float64{"1mi": 1609.344, "2km": 2000, "12ft": 3.6576, "10in": 0.254, "5": 5 * 1609.344} {
		l, _, err := ParseLength(text)
		require.NoError(t, err)
		require.InEpsilon(t, want, float64(l), 1e-12, text)
	}
	for text, want := range map[string]float64{"1acre": 4046.8564224, "1000sqft": 92.90304, "2ha": 2e4, "7m2": 7} {
		a, _, err := ParseArea(text)
		require.NoError(t, err)
		require.InEpsilon(t, want, float64(a), 1e-12, text)
	}
	for text, want := range map[string]float64{"30mph": 13.4112, "36km/h": 10, "5": 2.2352} {
		v, _, err := ParseSpeed(text)
		require.NoError(t, err)
		require.InEpsilon(t, want, float64(v), 1e-12, text)
	}
	hp, _, err := ParsePower("1hp")
	require.NoError(t, err)
	require.InEpsilon(t, 550*0.3048*0.45359237*9.80665, float64(hp), 1e-12)
	for text, want := range map[string]Duration{"45": 2700, "1.5h": 5400, "60s": 60} {
		d, _, err := ParseDuration(text)
		require.NoError(t, err)
		require.InEpsilon(t, float64(want), float64(d), 1e-12, text)
	}
}

// A lane of 12 feet and a mile long has 63,360 square feet, so 1 gal/1000ft2 is
// 63.36 gal/mi on it, and 43.56 gal/acre.
func TestRatesAgree(t *testing.T) {
	perLane, _, err := ParseRatePerLength("63.36gal/mi")
	require.NoError(t, err)
	perThousand, _, err := ParseRatePerArea("1gal/1000ft2")
	require.NoError(t, err)
	perAcre, _, err := ParseRatePerArea("43.56")
	require.NoError(t, err)
	require.InEpsilon(t, float64(perLane)/(12*0.3048), float64(perThousand), 1e-12)
	require.InEpsilon(t, float64(perAcre), float64(perThousand), 1e-12)
}

func TestFieldDigits(t *testing.T) {
	for _, c := range []struct {
		q          Quantity
		us, metric string
	}{
		{11.6 * Mile, "11.6 mi", "18.7 km"},
		{33.21 * Mile, "33.2 mi", "53.4 km"},
		{0.4275 * Mile, "0.43 mi", "0.69 km"},
		{Width(22 * Foot), "22 ft", "6.71 m"},
		{3.4 * Acre, "3.4 acre", "13 759 m2"},
		{30 * MilePerHour, "30 mph", "48.3 km/h"},
		{RatePerLength(40 * float64(Gallon) / float64(Mile)), "40 gal/mi", "94.1 L/km"},
		{RatePerArea(25 * float64(Gallon) / float64(Acre)), "25 gal/acre", "233.8 L/ha"},
		{Count(1.833), "1.83", "1.83"},
		{Fraction(0.4952), "49.52%", "49.52%"},
	} {
		requireShown(t, c.q, US, c.us)
		requireShown(t, c.q, Metric, c.metric)
	}
}

func TestFieldRefusals(t *testing.T) {
	_, _, err := ParseRatePerLength("40gal")
	require.EqualError(t, err, `"gal" is no unit of a rate per lane; allowed: gal/mi, L/km`)
	_, _, err = ParseRatePerArea("lots")
	require.EqualError(t, err, "not a rate per area; write it like 0.5gal/1000ft2 or 25gal/acre")
	_, _, err = ParseSpeed("900mph")
	require.EqualError(t, err, "out of range; allowed: 0mph to 223.7mph")
	_, _, err = ParseWidth("-3ft")
	require.EqualError(t, err, "out of range; allowed: 0ft to 3281ft")
	_, _, err = ParseDuration("soon")
	require.EqualError(t, err, "not a time; write it like 45min or 1.5h")
}
