package solution

import (
	"fmt"
	"testing"

	"brineyard/internal/trial"

	"github.com/stretchr/testify/require"
)

// check is one of the package's tests, on trial.
type check struct {
	name string
	run  func(testing.TB)
}

// kinds of check, by what stands behind the numbers that they compare with; the
// independent ones come first, since they say most.
var kinds = []struct {
	name   string
	checks []check
}{
	{"published, or worked out by others", []check{
		{"activity.csv", activityAgainstReference},
		{"Harvie's sums", pitzerJExpansionsMeet},
		{"integral of J", pitzerJAgainstItsIntegral},
		{"Salt Institute", solubilityAgainstSaltInstitute},
		{"CRC Handbook", densityAgainstCRC},
		{"TEOS-10", waterAgainstTEOS10},
		{"TEOS-10, knots", waterHeatAtItsKnots},
		{"smooth heat", waterHeatIsSmooth},
		{"handbook heats", heatOfSolutionByHandbook},
		{"viscosity of water", viscosityOfWater},
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
		{"ranges", limitsOfFits},
	}},
}

// unseen are coefficients that no check can see at this size, each with the reason.
var unseen = map[string]string{}

// Every coefficient of the tables is watched: changed by one unit of its fourth
// digit, up or down, it makes a test of this package fail. The checks are those
// that the tests named after them call. It runs by itself: while it does, the
// tables are not what they should be.
func TestEveryCoefficientCounts(t *testing.T) {
	Anchored() // which is made once, from the tables as they are
	requireSound(t)
	caught := map[string][]int{}
	var groups []string
	for _, l := range literals() {
		kind := max(kindThatSees(t, l, l.unit()), kindThatSees(t, l, -l.unit()))
		if _, known := unseen[l.name]; known {
			require.Equal(t, len(kinds), kind, "%s is seen after all", l.name)
		} else {
			require.Less(t, kind, len(kinds), "no check sees %s", l.name)
		}
		if caught[l.group] == nil {
			groups = append(groups, l.group)
			caught[l.group] = make([]int, len(kinds)+1)
		}
		caught[l.group][kind]++
	}
	requireSound(t)
	for _, group := range groups {
		t.Log(group, tally(caught[group]))
	}
}

// requireSound fails unless every check passes on the tables as they stand.
func requireSound(t *testing.T) {
	t.Helper()
	for _, kind := range kinds {
		for _, c := range kind.checks {
			require.NoError(t, trial.Failure(t, c.run), c.name)
		}
	}
}

// kindThatSees changes a coefficient and returns the first kind of check that
// fails; the number of kinds when none does. It puts the coefficient back.
func kindThatSees(t *testing.T, l literal, change float64) int {
	was := *l.at
	defer func() { *l.at = was }()
	*l.at = was + change
	for i, kind := range kinds {
		for _, c := range kind.checks {
			if trial.Failure(t, c.run) != nil {
				return i
			}
		}
	}
	return len(kinds)
}

// tally writes how many coefficients each kind of check sees first.
func tally(counts []int) string {
	text := ""
	for i, n := range counts {
		if n == 0 {
			continue
		}
		name := "unseen"
		if i < len(kinds) {
			name = kinds[i].name
		}
		text += fmt.Sprintf("; %s: %d", name, n)
	}
	return text
}
