package cli

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// workedLines are command lines whose working is followed with a calculator.
var workedLines = []string{
	"reading --hydrometer 23.3% --temp 40F",
	"reading --sg 1.16 --temp 75F",
	"reading --weigh 9.82lb/gal --temp 41F",
	"reading --salometer 70 --temp 12C --units metric",
	"check --volume 500gal --hydrometer 25% --temp 50F",
	"check --volume 500gal --hydrometer 21% --temp 50F --purity 94% --moisture 2%",
	"correct --volume 500gal --strength 26%",
	"correct --volume 500gal --strength 26% --capacity 510gal",
	"correct --volume 3120gal --strength 21.5% --stock 25.9%",
	"correct --volume 1900L --strength 21% --temp 10C --purity 96% --moisture 1.5% --units metric",
	"batch --volume 1200gal --purity 95% --moisture 2% --supply 30gal/min",
	"batch --volume 4500L --heel-volume 300L --heel-strength 20% --bed 300kg --units metric",
	"freeze --nacl 18% --cacl2 7%",
	"freeze --nacl 18% --cacl2 7% --at -5F --volume 4000gal",
	"freeze --nacl 23.3% --pavement 20F",
	"blend 80:brine@23.3% 15:cacl2@32% 5:water",
	"blend 80:brine@23.3% 20:cacl2@32% --by weight --units metric",
	"blend 80:brine@23.3% 20:cacl2@32% --volume 900gal",
	"blend 80:brine@23.3% 20:cacl2@32% --by weight --volume 3000L --units metric",
	"blend 80:brine@23.3% 20:mgcl2@30% --ice-at -15F --volume 1000gal",
	"store 6000gal@23.1% 800gal@25%",
	"store 6000gal@22.4% --to 23.3% --with 25.5% --capacity 8000gal",
	"ready 0=12% 15=18.5% 25=20.9% --temp 45F",
	"truck --tank 1750gal --empty 19300lb --gross 33000lb --flow 165gal/min --rate 42gal/mi --speed 25mph --nozzles 18",
	"freeze --nacl 12% --cacl2 4% --mgcl2 3% --kcl 2%",
	"storm STORM --yard YARD",
	"store 6000gal@23.1% 800gal@25% --batches 3",
	"store 6000L@23.1% 900L:cacl2@32% --units metric",
	"yard show --yard YARD",
	"yard show --yard YARD --units metric",
	"journal season --yard YARD --journal SEASON",
	"storm --low -5C --reserve 15kL --yard YARD --units metric",
	"correct --volume 5000gal --strength 23.301% --to 23.3%",
	"correct --volume 5000gal --strength 23.299% --to 23.3%",
	"correct --volume 5000gal --strength 23.299% --to 23.3% --stock 25.5%",
	"correct --volume 5000gal --strength 23.301% --to 23.3% --capacity 5000gal",
	"store 5000gal@23.299% --to 23.3% --with 25.5%",
}

// Every printed step, put into a calculator, comes to the printed result.
func TestWorkingCanBeFollowed(t *testing.T) {
	for _, line := range workedLines {
		steps := workingOf(t, line)
		require.NotEmpty(t, steps, line)
		computed := 0
		for _, s := range steps {
			if s.Numbers == "" {
				continue
			}
			computed++
			want := leading(t, s.Result)
			got := evaluate(t, s.Numbers)
			require.InDelta(t, want, got, 0.6*lastDigit(s.Result), "%s: %s: %s = %s", line, s.What, s.Numbers, s.Result)
		}
		require.Positive(t, computed, line)
	}
}

// A printed number is the answer's own, to the digits of a hydrometer or a bucket; and the
// last is the reading to expect, where there is one.
func TestWorkingReachesTheAnswer(t *testing.T) {
	for line, figure := range map[string]string{
		"reading --hydrometer 23.3% --temp 40F":                             "true_strength",
		"store 6000gal@22.4% --to 23.3% --with 25.5%":                       "corrected_volume",
		"reading --baume 18 --temp 85F":                                     "true_strength",
		"correct --volume 500gal --strength 26%":                            "final_volume",
		"correct --volume 500gal --strength 26% --capacity 510gal":          "water_to_add",
		"correct --volume 800gal --strength 20% --purity 93% --moisture 3%": "final_volume",
		"batch --volume 1200gal --purity 95% --moisture 2%":                 "water_to_add",
		"batch --volume 1200gal --supply 30gal/min":                         "fill_time",
		"yard show --yard YARD":                                             "brine_per_hour",
	} {
		want, reached := figureOf(t, line, figure), false
		steps := workingOf(t, line)
		for _, s := range steps {
			reached = reached || math.Abs(leading(t, s.Result)-want) <= 2e-4*want
		}
		require.True(t, reached, "%s: %v", line, want)
		if last := steps[len(steps)-1]; last.What == "Reading to expect" {
			require.InDelta(t, figureOf(t, line, "expected_reading"), leading(t, last.Result), 0.00501, line)
		} else {
			require.NotRegexp(t, "^(correct|batch)", line)
		}
	}
}

// The working comes to the answer where almost nothing is to be added as well: a difference
// of two weights that are printed to six digits would be off by a part in ten.
func TestWorkingNearTheTarget(t *testing.T) {
	for line, c := range map[string]struct{ what, figure string }{
		"correct --volume 5000gal --strength 23.301% --to 23.3%":                    {"Water to add, by volume", "water_to_add"},
		"correct --volume 5000gal --strength 23.301% --to 23.3% --capacity 5000gal": {"Then add", "water_to_add"},
		"correct --volume 5000gal --strength 23.299% --to 23.3%":                    {"Rock salt to add", "salt_to_add"},
		"correct --volume 5000gal --strength 23.299% --to 23.3% --stock 25.5%":      {"Stock to add, by volume", "stock_to_add"},
		"correct --volume 5000gal --strength 23.29937% --to 23.3%":                  {"Rock salt to add", "salt_to_add"},
		"correct --volume 5000gal --strength 23.30063% --to 23.3%":                  {"Water to add, by volume", "water_to_add"},
		"store 5000gal@23.299% --to 23.3% --with 25.5%":                             {"Stock to add, by volume", "stock_to_add"},
	} {
		want := figureOf(t, line, c.figure)
		steps := workingOf(t, line)
		at := slices.IndexFunc(steps, func(s workedStep) bool { return s.What == c.what })
		require.GreaterOrEqual(t, at, 0, "%s: %v", line, steps)
		require.InEpsilon(t, want, leading(t, steps[at].Result), 1e-4, line)
	}
}

// demoFields splits a command line, with the demo files in their places.
func demoFields(line string) []string {
	return strings.Fields(strings.NewReplacer("YARD", demoYard, "STORM", demoStorm, "SEASON", demoSeason).Replace(line))
}

type workedStep struct{ What, Formula, Numbers, Result string }

func workingOf(t *testing.T, line string) []workedStep {
	t.Helper()
	var d struct{ Working []workedStep }
	require.NoError(t, json.Unmarshal([]byte(answer(t, append(demoFields(line), "--working", "--format", "json")...)), &d))
	return d.Working
}

// figureOf returns a figure of a command line's answer.
func figureOf(t *testing.T, line, key string) float64 {
	t.Helper()
	var d struct {
		Figures map[string]struct{ Value any }
	}
	require.NoError(t, json.Unmarshal([]byte(answer(t, append(demoFields(line), "--format", "json")...)), &d))
	value, ok := d.Figures[key].Value.(float64)
	require.True(t, ok, "%s: %s", line, key)
	return value
}
