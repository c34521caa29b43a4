package solution

import (
	"testing"

	"github.com/stretchr/testify/require"
)

const (
	usGallon      = 3.785411784e-3 // m3, exact
	pound         = 0.45359237     // kg, exact
	standardBrine = 0.233          // the strength that crews call 23.3 % brine
)

// fahrenheit converts K to F.
func fahrenheit(kelvin float64) float64 { return 1.8*(kelvin-zeroCelsius) + 32 }

// saltPerGallon returns pounds of salt in a US gallon of standard brine at 60 F.
func saltPerGallon(t testing.TB) float64 {
	t.Helper()
	rho, err := Density(Brine(standardBrine), SixtyF)
	require.NoError(t, err)
	return standardBrine * rho * usGallon / pound
}

// Common practice, no source: 2.28 lb of salt in a gallon. One percent is its
// rounding and that of temperature.
func TestSaltInAGallon(t *testing.T) {
	require.InEpsilon(t, 2.28, saltPerGallon(t), 0.01)
}

// Source: Iowa DOT news, January 2008: 50 gal of brine hold about 110 lb of salt.
// The agency rounds to tens, hence 5 %.
func TestSaltInFiftyGallons(t *testing.T) {
	require.InEpsilon(t, 110, 50*saltPerGallon(t), 0.05)
}

// Common practice; the WisDOT winter FAQ also says that salt melts down to -6 F.
// Half a degree is the rounding of that.
func TestStandardBrineFreezesAtMinusSix(t *testing.T) {
	f, err := Anchored().Freezing(Brine(standardBrine))
	require.NoError(t, err)
	require.InDelta(t, -6, fahrenheit(f.First().Temperature), 0.5)
}

// Common practice, no source: brine stronger than 24 % protects less, since salt
// falls out of it before 23.3 % brine freezes, and the sooner the stronger it is.
func TestTooStrongBrineDropsSalt(t *testing.T) {
	f, err := Anchored().Freezing(Brine(standardBrine))
	require.NoError(t, err)
	before := f.First().Temperature
	for _, strength := range []float64{0.24, 0.245, 0.25, 0.255, 0.26} {
		f, err := Anchored().Freezing(Brine(strength))
		require.NoError(t, err)
		require.Equal(t, Hydrohalite, f.First().Solid, "%g", strength)
		require.Greater(t, f.First().Temperature, before, "%g", strength)
		before = f.First().Temperature
	}
}
