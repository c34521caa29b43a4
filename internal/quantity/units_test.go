package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// exact allows for the roundings of a product or two.
func exact(t *testing.T, want, got float64) {
	t.Helper()
	require.InEpsilon(t, want, got, 1e-15)
}

// Source: NIST SP 811, appendix B (from memory), and the definitions behind it:
// a gallon is 231 cubic inches, an inch 2.54 cm, a short ton 2000 lb.
func TestExactFactors(t *testing.T) {
	inch := 0.0254 // m
	exact(t, 231*math.Pow(inch, 3), float64(Gallon))
	exact(t, 3.785411784e-3, float64(Gallon))
	exact(t, 0.45359237, float64(Pound))
	exact(t, 2000*0.45359237, float64(shortTon))
	exact(t, 1e-3, float64(Liter))
	exact(t, 60, float64(Minute))
	exact(t, float64(Gallon), 60*float64(GallonPerMinute))
	exact(t, float64(Liter), 60*float64(LiterPerMinute))
}

// Source: NIST SP 811, appendix B.8 (from memory), seven digits; the identity is
// pound over gallon, minute over sixty.
func TestDerivedFactors(t *testing.T) {
	const printed = 1e-6
	require.InEpsilon(t, 119.8264, float64(PoundPerGallon), printed)
	exact(t, float64(Pound)/float64(Gallon), float64(PoundPerGallon))
	require.InEpsilon(t, 6.309020e-5, float64(GallonPerMinute), printed)
}

// Common practice, no source: a gallon of water weighs 8.34 lb. The density is
// TEOS-10's at 15 C (testdata/published/teos10-water.csv).
func TestGallonOfWater(t *testing.T) {
	water := Density(999.1026)
	require.Equal(t, "8.34 lb/gal", water.In(US).String())
	require.InDelta(t, 8.34, float64(Gallon.Mass(water)/Pound), 0.005)
}

// The points that fix the scales against each other: -40 is common to both, ice
// melts at 32 F, water boils at 212 F; 60 F is 15 5/9 C.
func TestFahrenheitAndCelsius(t *testing.T) {
	for fahrenheit, celsius := range map[float64]float64{
		-40: -40, 32: 0, 212: 100, 60: 15 + 5.0/9, 41: 5, -6: -190.0 / 9,
	} {
		const digits = 1e-12
		require.InDelta(t, celsius, Fahrenheit(fahrenheit).Celsius(), digits)
		require.InDelta(t, fahrenheit, Celsius(celsius).Fahrenheit(), digits)
		require.InDelta(t, celsius+273.15, float64(Fahrenheit(fahrenheit)), digits)
	}
}

// A difference has no zero point: 5 K are 9 F.
func TestDifference(t *testing.T) {
	require.Equal(t, "9 F", Difference(5).In(US).String())
	require.Equal(t, "5 C", Difference(5).In(Metric).String())
	require.Equal(t, "0 F", Difference(0).In(US).String())
}

// Volume, mass, density, flow and time agree with each other.
func TestArithmetic(t *testing.T) {
	v, rho, q := Volume(2), Density(1200), Flow(0.5)
	require.Equal(t, Mass(2400), v.Mass(rho))
	require.Equal(t, v, v.Mass(rho).Volume(rho))
	require.Equal(t, Mass(600), v.Mass(rho).Times(0.25))
	require.Equal(t, Duration(4), v.Over(q))
	require.Equal(t, "30 min", (300 * Gallon).Over(10*GallonPerMinute).In(US).String())
}
