package solution

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// cellsOf returns a table of testdata/reference whose rows differ in length,
// without its heading.
func cellsOf(t testing.TB, name string) [][]string {
	t.Helper()
	return tableOf(t, "reference/"+name).cells[1:]
}

// numbersOf parses cells that must all be numbers.
func numbersOf(t testing.TB, cells []string) []float64 {
	t.Helper()
	out := make([]float64, len(cells))
	for i, cell := range cells {
		x, err := strconv.ParseFloat(cell, 64)
		require.NoError(t, err)
		out[i] = x
	}
	return out
}

var saltOfCation = map[string]Salt{"Na": NaCl, "K": KCl, "Ca": CaCl2, "Mg": MgCl2}

// pairOf finds the pair of the first two of the ions.
func pairOf(t testing.TB, k *coefficients, ions []string) *pair {
	t.Helper()
	for i := range k.pair {
		if p := &k.pair[i]; p.first == saltOfCation[ions[0]] && p.second == saltOfCation[ions[1]] {
			return p
		}
	}
	require.Fail(t, "no such pair", "%v", ions)
	return nil
}

// Source: Toner and Catling (2017), doi 10.1021/acs.jced.7b00265
// (pitzer-parameters.csv). Every coefficient is the source's, digit for digit.
func TestPitzerCoefficients(t *testing.T) { pitzerCoefficients(t, &standard) }

func pitzerCoefficients(t testing.TB, k *coefficients) {
	seen := map[string]int{}
	for _, row := range cellsOf(t, "pitzer-parameters.csv") {
		parameter, ions := row[0], strings.Fields(row[1])
		var got []float64
		switch parameter {
		case "APHI":
			got = k.debyeHueckel[:]
		case "THETA":
			got = pairOf(t, k, ions).theta[:]
		case "PSI":
			got = pairOf(t, k, ions).psi[:]
		default:
			got = binaryCoefficients(t, parameter, &k.binary[saltOfCation[ions[0]]])
		}
		require.Equal(t, numbersOf(t, row[2:]), got, "%v", row)
		seen[parameter]++
	}
	require.Equal(t, map[string]int{
		"APHI": 1, "THETA": pairCount, "PSI": pairCount, "ALPHAS": 4, "B0": 4, "B1": 4, "B2": 4, "C0": 4,
	}, seen)
}

func binaryCoefficients(t testing.TB, parameter string, b *binary) []float64 {
	switch parameter {
	case "ALPHAS":
		return []float64{b.alpha1, b.alpha2}
	case "B0":
		return b.b0[:]
	case "B1":
		return b.b1[:]
	case "B2":
		return b.b2[:]
	case "C0":
		return b.c0[:]
	}
	require.Fail(t, "no such parameter", parameter)
	return nil
}

// Source: as above (solubility-products.csv). The table also holds two double
// salts, which the model leaves out.
func TestSolubilityProducts(t *testing.T) { solubilityProducts(t, &standard) }

func solubilityProducts(t testing.TB, k *coefficients) {
	leftOut := map[string]bool{"Tachyhydrite": true, "Carnallite": true}
	seen := 0
	for _, row := range cellsOf(t, "solubility-products.csv") {
		if leftOut[row[0]] {
			continue
		}
		solid, ok := solidNames[row[0]]
		if row[0] == "Ice(s)" {
			solid, ok = Ice, true
		}
		require.True(t, ok, "%v", row)
		require.Equal(t, numbersOf(t, row[2:]), k.solid[solid].logK[:], "%v", row)
		if solid != Ice {
			// The source writes NaCl:2H2O = ..., and leaves no water unsaid.
			formula, _, _ := strings.Cut(row[1], " =")
			require.Equal(t, strings.ReplaceAll(formula, ":", "."), solid.Formula())
			requireHydrate(t, k, solid)
		}
		seen++
	}
	require.Equal(t, int(solidCount), seen)
	require.Len(t, Solids(), int(solidCount))
}

// requireHydrate compares salt and water of a solid with its formula.
func requireHydrate(t testing.TB, k *coefficients, solid Solid) {
	t.Helper()
	formula, water, hydrate := strings.Cut(solid.Formula(), ".")
	salt, ok := solid.Salt()
	require.True(t, ok)
	require.Equal(t, formula, salt.String())
	want := 0.0
	if hydrate {
		want = numbersOf(t, []string{strings.TrimSuffix(water, "H2O")})[0]
	}
	require.Equal(t, want, k.solid[solid].water, solid.Formula())
	require.InDelta(t, k.salt[salt].molarMass+want*MolarMassWater, k.massOf(solid), 1e-12)
}

// Source: Laliberte (2009), doi 10.1021/je8008123 (laliberte-2009.csv): every
// coefficient and the ranges of the densities, digit for digit.
func TestLaliberteCoefficients(t *testing.T) { laliberteCoefficients(t, &standard) }

func laliberteCoefficients(t testing.TB, k *coefficients) {
	seen := 0
	for _, row := range cellsOf(t, "laliberte-2009.csv") {
		if row[1] == "KCH3CO2" { // not a salt of the model
			continue
		}
		l := &k.laliberte[saltNamed(t, row[1])]
		got := append(l.c[:], l.density.low, l.density.high, l.density.w)
		got = append(got, l.a[:]...)
		require.Equal(t, numbersOf(t, row[3:]), got, row[1])
		seen++
	}
	require.Equal(t, int(saltCount), seen)
}

// Source: atomic masses of IUPAC, rounded. The shares of chloride follow; those
// of pure solutions are 60.7, 47.6, 63.9 and 74.5 % of the salt.
func TestMolarMasses(t *testing.T) { molarMasses(t, &standard) }

func molarMasses(t testing.TB, k *coefficients) {
	const chlorine = 35.453
	for s, metal := range [saltCount]float64{NaCl: 22.98977, KCl: 39.0983, CaCl2: 40.078, MgCl2: 24.305} {
		salt := Salt(s)
		atoms := float64(1 + strings.Count(salt.String(), "Cl2"))
		mass := metal + atoms*chlorine
		require.InDelta(t, mass, 1e3*k.salt[salt].molarMass, 1e-9, salt)
		require.InDelta(t, 0.2*atoms*chlorine/mass, k.chlorideIn(Pure(salt, 0.2)), 1e-12, salt)
		require.Equal(t, 0.2, Pure(salt, 0.2).Fraction(salt))
	}
	require.InDelta(t, 2*1.00794+15.9994, 1e3*MolarMassWater, 1e-9)
}
