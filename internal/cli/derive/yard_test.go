package derive

import (
	"fmt"
	"regexp"
	"strconv"
	"testing"

	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The last step of a yard's working is what its mixing tanks make in an hour, however many
// they are, with one pump and one supply between them.
func TestYardReachesTheSharedFlow(t *testing.T) {
	several := 0
	rapid.Check(t, func(t *rapid.T) {
		system := rapid.SampledFrom([]quantity.System{quantity.US, quantity.Metric}).Draw(t, "units")
		supply := rapid.Float64Range(5, 200).Draw(t, "supply")
		pump := rapid.Float64Range(20, 400).Draw(t, "pump")
		moisture := rapid.Float64Range(0, 0.03).Draw(t, "moisture")
		var tanks []MixingTank
		var can []brine.Capability
		for i := range rapid.IntRange(1, 4).Draw(t, "tanks") {
			r := brine.CapabilityRequest{
				WorkingVolume: quantity.Volume(rapid.Float64Range(100, 5000).Draw(t, "volume")) * quantity.Gallon,
				MixTime:       quantity.Duration(rapid.Float64Range(5, 120).Draw(t, "mix")) * quantity.Minute,
				Supply:        quantity.Flow(supply) * quantity.GallonPerMinute, PumpFlow: quantity.Flow(pump) * quantity.GallonPerMinute,
				WaterTemp: quantity.Fahrenheit(46), Target: 0.233, RockSalt: yard.RockSalt{Purity: 0.96, Moisture: quantity.Strength(moisture)},
			}
			c, err := brine.CanDo(r)
			require.NoError(t, err)
			tanks, can = append(tanks, MixingTank{fmt.Sprintf("mixer %d", i+1), r, c}), append(can, c)
		}
		run := brine.TanksToRun(can)
		if len(run) > 1 {
			several++
		}
		want := quantity.Volume(float64(brine.SharedFlow(can)) * 3600).In(system)
		require.InEpsilon(t, want.Value, lastNumber(t, Yard(show.View{System: system}, tanks, run)), 5e-5)
	})
	require.Positive(t, several)
}

// A tank of which a time is not known makes no part of it, and ends without a figure.
func TestYardOfUnknownTimes(t *testing.T) {
	r := brine.CapabilityRequest{WorkingVolume: 4, WaterTemp: quantity.Celsius(10), Target: 0.233, RockSalt: yard.PureSalt()}
	can, err := brine.CanDo(r)
	require.NoError(t, err)
	steps := Yard(show.View{}, []MixingTank{{"mixer", r, can}, {"tote", r, brine.Capability{}}}, nil)
	require.Equal(t, "Water to run in", steps[len(steps)-1].What)
}

// lastNumber is what the last step comes to.
func lastNumber(t require.TestingT, steps []report.Step) float64 {
	x, err := strconv.ParseFloat(regexp.MustCompile(`^[0-9.]+`).FindString(steps[len(steps)-1].Result), 64)
	require.NoError(t, err)
	return x
}
