package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// deviation is that of the density from a published table: the mean and the root of the
// mean square, in kg/m3.
type deviation struct {
	file      string
	salt      Salt
	mean, rms float64
}

// Some tables need wide tolerances, because good sources differ by as much. For them
// the measured deviation is stated too: it changes with every coefficient behind it,
// so it shows a lost digit. The files name their sources.
var deviations = []deviation{
	{"crc-2021-nacl.csv", NaCl, 0.02384, 0.22533},
	{"crc-2021-kcl.csv", KCl, -0.05447, 0.14258},
	{"crc-2021-cacl2.csv", CaCl2, -0.27119, 0.65515},
	{"crc-2021-mgcl2.csv", MgCl2, 0.12322, 0.63117},
	{"simion-nacl-density.csv", NaCl, 0.10809, 0.41085},
	{"melinder-cacl2-density.csv", CaCl2, -1.11984, 2.55397},
	{"melinder-mgcl2-density.csv", MgCl2, -1.06216, 2.46546},
	{"teos10-water.csv", NaCl, -0.00285, 0.00314}, // of water, no salt
}

func TestStatedDeviations(t *testing.T) { statedDeviations(t, &standard) }

func statedDeviations(t testing.TB, k *coefficients) {
	const tolerance = 6e-6 // kg/m3: the statement's last digit
	for _, d := range deviations {
		mean, rms := measuredDeviation(t, k, d)
		require.InDelta(t, d.mean, mean, tolerance, "mean of %+v", d)
		require.InDelta(t, d.rms, rms, tolerance, "root mean square of %+v", d)
	}
}

// measuredDeviation compares a table of densities with the equations.
func measuredDeviation(t testing.TB, k *coefficients, d deviation) (mean, rms float64) {
	rows := publishedRows(t, d.file)
	for _, row := range rows {
		strength, celsius, want := 0.0, 20.0, 0.0
		if _, ok := row["mass_pct"]; ok { // none: a table of water
			strength = share(t, row, "mass_pct")
		}
		if _, ok := row["density_20C_g_cm3"]; ok {
			want = 1000 * number(t, row, "density_20C_g_cm3")
		} else {
			celsius, want = number(t, row, "temp_C"), number(t, row, "density")
		}
		off := k.density(Pure(d.salt, strength), celsius) - want
		mean += off / float64(len(rows))
		rms += off * off / float64(len(rows))
	}
	return mean, math.Sqrt(rms)
}
