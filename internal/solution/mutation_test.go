package solution

import (
	"slices"
	"testing"

	"brineyard/internal/trial"

	"github.com/stretchr/testify/require"
)

// check is a test of this package that can run with other coefficients.
type check struct {
	name string
	run  func(testing.TB, *coefficients)
}

// kinds of check, by the source of the numbers that they compare with. The independent
// ones come first, because they prove most.
var kinds = []struct {
	name   string
	checks []check
}{
	{"published, or worked out by others", []check{
		{"activity.csv", activityAgainstReference},
		{"Harvie's sums", pitzerJExpansionsMeet},
		{"integral of J", pitzerJAgainstItsIntegral},
		{"Salt Institute", solubilityAgainstSaltInstitute},
		{"line of ice and hydrohalite", cotecticLine},
		{"CRC Handbook", densityAgainstCRC},
		{"TEOS-10", waterAgainstTEOS10},
		{"TEOS-10, knots", waterHeatAtItsKnots},
		{"smooth heat", waterHeatIsSmooth},
		{"handbook heats", heatOfSolutionByHandbook},
		{"atomic masses", molarMasses},
	}},
	{"published, by the stated deviation", []check{
		{"stated deviations", statedDeviations},
	}},
	{"computed from the equations", []check{
		{"pitzer-values.csv", pitzerValues},
		{"solids-values.csv", solidsValues},
		{"laliberte-values.csv", laliberteValues},
		{"Laliberte's worked values", laliberteWorkedValues},
	}},
	{"literals alone", []check{
		{"pitzer-parameters.csv", pitzerCoefficients},
		{"solubility-products.csv", solubilityProducts},
		{"laliberte-2009.csv", laliberteCoefficients},
		{"constants", constantsByTheirSources},
		{"line and anchor", lineAndAnchorLiterals},
		{"ranges", rangesOfFits},
	}},
}

// Every coefficient is watched: changed by one unit of its fourth digit, up or down,
// it makes a test of this package fail. The checks are those that the tests named
// after them call; they get a copy of the coefficients with one of them changed.
func TestEveryCoefficientCounts(t *testing.T) {
	var groups []string
	k := standard
	for _, l := range literals(&k) {
		if !slices.Contains(groups, l.group) {
			groups = append(groups, l.group)
		}
	}
	for _, group := range groups {
		t.Run(group, func(t *testing.T) {
			t.Parallel()
			requireCounts(t, group)
		})
	}
}

// requireCounts changes the coefficients of a group, one at a time.
func requireCounts(t *testing.T, group string) {
	k := standard
	require.Equal(t, len(kinds), kindThatSees(t, &k), "a check fails on the coefficients as they are")
	caught := make([]int, len(kinds))
	for _, l := range literals(&k) {
		if l.group != group {
			continue
		}
		was, unit, seen := *l.at, l.unit(), 0
		for _, changed := range []float64{was + unit, was - unit} {
			*l.at = changed
			seen = max(seen, kindThatSees(t, &k))
		}
		*l.at = was
		require.Less(t, seen, len(kinds), "no check sees %s", l.name)
		caught[seen]++
	}
	for i, n := range caught {
		if n > 0 {
			t.Logf("%d by %s", n, kinds[i].name)
		}
	}
}

// kindThatSees returns the first kind of check that fails with the coefficients; the
// number of kinds when none does.
func kindThatSees(t *testing.T, k *coefficients) int {
	for i, kind := range kinds {
		for _, c := range kind.checks {
			if trial.Failure(t, func(t testing.TB) { c.run(t, k) }) != nil {
				return i
			}
		}
	}
	return len(kinds)
}
