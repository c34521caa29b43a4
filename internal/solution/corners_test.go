package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Ions counts the ions of a formula unit.
func TestIons(t *testing.T) {
	require.Equal(t, []float64{2, 2, 3, 3}, []float64{NaCl.Ions(), KCl.Ions(), CaCl2.Ions(), MgCl2.Ions()})
}

// Without water there is no finite molality.
func TestMolalityWithoutWater(t *testing.T) {
	require.Equal(t, inf, Composition{NaCl: 0.3, Other: 0.7}.Molality(NaCl))
	require.InDelta(t, 0.3/0.7/58.44277e-3, Composition{NaCl: 0.3}.Molality(NaCl), 1e-12)
}

// The density of BrineTop gives BrineTop, even when it is too high by its last digits.
func TestStrengthAtTheTop(t *testing.T) {
	top := densityAt(t, Brine(BrineTop), 15)
	strength, ok := BrineStrength(top*(1+1e-12), zeroCelsius+15)
	require.True(t, ok)
	require.Equal(t, BrineTop, strength)
}

// parabola has its top at a strength, with the given height; it is 1 lower 0.01 away.
func parabola(at, height float64) func(float64) float64 {
	return func(w float64) float64 { return height - 1e4*(w-at)*(w-at) }
}

// firstRise brackets the first crossing between two steps, and a hump that rises above
// zero between them. It finds none where the index stays below zero or begins above.
func TestFirstRise(t *testing.T) {
	low, high, ok := firstRise(func(w float64) float64 { return w - 0.123 })
	require.True(t, ok)
	require.True(t, low < 0.123 && 0.123 <= high, "%g %g", low, high)

	// Above zero from 0.1045 to 0.1055, between the steps at 0.10 and 0.11.
	low, high, ok = firstRise(parabola(0.105, 0.0025))
	require.True(t, ok)
	require.True(t, low < 0.1045 && 0.1045 < high && high < 0.1055, "%g %g", low, high)

	for name, index := range map[string]func(float64) float64{
		"a hump too low":  parabola(0.105, -0.0025),
		"nothing":         func(float64) float64 { return -1 },
		"above the start": func(float64) float64 { return 1 },
	} {
		_, _, ok := firstRise(index)
		require.False(t, ok, name)
	}
}

// peak finds the top of a hump as exactly as the digits of a flat top allow.
func TestPeak(t *testing.T) {
	require.InDelta(t, 0.1043, peak(parabola(0.1043, -3), 0.09, 0.11), 1e-7)
}

// A salt whose solid never forms has no eutectic.
func TestNoEutectic(t *testing.T) {
	k := standard
	k.solid[Antarcticite].logK[0] += 10
	_, _, _, err := k.anchored().Eutectic(CaCl2)
	require.ErrorIs(t, err, ErrTemperature)
	require.ErrorContains(t, err, "CaCl2")
}

// The scale is infinite when no scale freezes. That takes ions with such an attraction
// that more salt makes the water more active.
func TestNoScaleFreezes(t *testing.T) {
	k := standard
	k.binary[NaCl].b0[0] = -3
	require.Equal(t, inf, k.chlorideScale(&molality{NaCl: 1}, 260))
}

// The slope is zero where a table turns, and does not overshoot at an end.
func TestSlopesOfTables(t *testing.T) {
	turning := []knot{{4, 0}, {3, 1}, {2, 0}, {1, 1}}
	require.Zero(t, slope(turning, 1))
	require.Zero(t, slope([]knot{{3, 0}, {2, 0.1}, {1, 5}}, 0)) // the parabola would rise the wrong way
	steep := []knot{{3, 0}, {2, 1}, {1, -9}}
	require.Equal(t, -3.0, slope(steep, 0)) // the parabola says -6.5, three chords are -3
	require.InDelta(t, -2.0, slope([]knot{{3, 0}, {2, 2}, {1, 4}}, 2), 1e-12)
}

// coldBrine returns the problem of equilibrium of NaCl brine below its eutectic.
func coldBrine(t *testing.T) *assemblage {
	t.Helper()
	a := Anchored().assemblage(Brine(0.2), zeroCelsius-30)
	require.Equal(t, 3, a.n) // ice, halite, hydrohalite
	return a
}

// allSolid succeeds with as many solids as components, which hold all components and are
// not negative.
func TestAllSolid(t *testing.T) {
	a := coldBrine(t)
	n, ok := a.allSolid([]int{0, 2}) // ice and hydrohalite
	require.True(t, ok)
	require.InDelta(t, a.total[1+NaCl], n[2], 1e-12)
	require.InDelta(t, a.total[0]-2*a.total[1+NaCl], n[0], 1e-12)

	_, ok = a.allSolid([]int{0})
	require.False(t, ok, "salt without a solid")
	_, ok = a.allSolid([]int{0, 0})
	require.False(t, ok, "ice twice")
	a.total[0] = a.total[1+NaCl] // too little water for the hydrate
	_, ok = a.allSolid([]int{0, 2})
	require.False(t, ok, "ice below zero")
}

// A set of solids is valid when none is below zero, nothing is supersaturated and
// liquid is left.
func TestValidAssemblage(t *testing.T) {
	warm := Anchored().assemblage(Brine(0.2), zeroCelsius)
	mu := warm.potentials(&warm.total)
	var none column
	require.True(t, warm.valid(&none, &mu))
	require.False(t, warm.valid(&column{-0.1}, &mu), "less than no ice")
	require.False(t, warm.valid(&column{warm.total[0] + 1}, &mu), "more ice than water")

	cold := coldBrine(t)
	mu = cold.potentials(&cold.total)
	require.False(t, cold.valid(&none, &mu), "supercooled")
}

// A step whose equations have no solution fails, and does not move the point.
func TestStepWithoutSolution(t *testing.T) {
	a := coldBrine(t)
	p := a.start()
	p.y[0] = math.NaN()
	require.False(t, a.step(p, 1e-3))
	require.False(t, math.IsNaN(p.n[0]), "the point is as it was")
}

// The functions in the inner loops of every search do not allocate.
func TestNoAllocation(t *testing.T) {
	m := standard.molality(ternary)
	p := standard.parametersAt(260, &m)
	anchored := Anchored()
	for name, f := range map[string]func(){
		"parameters": func() { standard.parametersAt(260, &m) },
		"activity":   func() { p.activity(&m) },
		"ActivityAt": func() { _, _ = ActivityAt(ternary, 260) },
		"density":    func() { standard.density(ternary, 15) },
		"strength":   func() { BrineStrength(1150, SixtyF) },
		"Freezing":   func() { _, _ = anchored.Freezing(ternary) },
		"Solubility": func() { _, _, _ = anchored.Solubility(NaCl, 260) },
	} {
		require.Zero(t, testing.AllocsPerRun(10, f), name)
	}
}
