package hydraulics

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rows reads a reference file, whose source stands in its head.
func rows(t *testing.T, name string) [][]string {
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "reference", name))
	require.NoError(t, err)
	r := csv.NewReader(strings.NewReader(string(text)))
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	return all[1:]
}

func number(t *testing.T, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// testdata/reference/pipe-friction.csv: the library fluids.
func TestFrictionFactor(t *testing.T) {
	for _, row := range rows(t, "pipe-friction.csv") {
		require.InEpsilon(t, number(t, row[2]), FrictionFactor(number(t, row[0]), number(t, row[1])), 1e-9, "%v", row)
	}
	require.Zero(t, FrictionFactor(0, 0))
	require.InDelta(t, 0.032, FrictionFactor(2000, 1e-4), 1e-12)
}

// testdata/reference/pump-points.csv: friction by the library fluids, solved by scipy.
func TestOperate(t *testing.T) {
	for _, row := range rows(t, "pump-points.csv") {
		var curve []Point
		for _, pair := range strings.Fields(row[7]) {
			q, h, _ := strings.Cut(pair, ":")
			curve = append(curve, Point{quantity.Flow(number(t, q)), quantity.Length(number(t, h))})
		}
		way := Way{
			Pipes: []Pipe{{quantity.Length(number(t, row[2])), quantity.Depth(number(t, row[3])), quantity.Length(number(t, row[4])), number(t, row[5])}},
			Lift:  quantity.Length(number(t, row[6])),
		}
		at, beyond, err := Operate(curve, way, Fluid{quantity.Density(number(t, row[0])), Viscosity(number(t, row[1]))})
		require.NoError(t, err)
		require.False(t, beyond)
		require.InEpsilon(t, number(t, row[8]), float64(at.Flow), 1e-7, "%v", row)
		require.InEpsilon(t, number(t, row[9]), float64(at.Head), 1e-6, "%v", row)
	}
}

// Example 7.15 of Crane, Flow of Fluids (Technical Paper 410): water of 70 F, 62.298 lb/ft3 and 0.95 cP, 100 gal/min
// through 500 ft of 3 inch schedule 40 pipe (3.068 in), 400 ft up; four elbows, a gate valve, a lift check valve and
// the exit. The book has a head of 421 ft and 15.2 hp at an efficiency of 70 %. How seen: in the examples of the
// documentation of the library fluids 1.0.22, which gets 420.35 ft and 15.154 hp.
func TestCraneExample(t *testing.T) {
	// Loss coefficients at the speed in the pipe, by the book's formulas as the library has them: exit, gate valve,
	// four elbows, lift check valve of the next smaller size.
	const fittings = 1 + 0.1377 + 4*0.5164 + 25.2445
	pipe := Pipe{Length: 500 * quantity.Length(quantity.Foot), Diameter: 3.068 * quantity.Inch, Roughness: quantity.Length(0.0022 * quantity.Inch), Fittings: fittings}
	water := Fluid{62.298 * 16.018463, 0.95e-3}
	flow := 100 * quantity.GallonPerMinute
	head := 400*quantity.Length(quantity.Foot) + quantity.Length(pipe.Loss(flow, water))
	require.InDelta(t, 420.35, float64(head)/0.3048, 0.01)
	require.InDelta(t, 421, float64(head)/0.3048, 1)
	power := Power(Point{flow, head}, water.Density, 0.7)
	require.InDelta(t, 15.2, float64(power)/745.699872, 0.1)
}

// Water of 70 F has 0.95 cP in Crane, Flow of Fluids, example 7.15; 20 % salt at 20 C 1.56 mPa s and water 1.002 (from
// memory, CRC Handbook).
func TestViscosity(t *testing.T) {
	for _, c := range []struct {
		of     solution.Composition
		at     quantity.Temperature
		want   float64
		within float64
	}{
		{solution.Composition{}, quantity.Fahrenheit(70), 0.95, 0.04},
		{solution.Composition{}, quantity.Celsius(20), 1.002, 0.005},
		{solution.Brine(0.2), quantity.Celsius(20), 1.56, 0.03},
	} {
		require.InEpsilon(t, c.want, 1000*float64(ViscosityOf(c.of, c.at)), c.within)
	}
	// Cold and salt make it thicker, whatever the salt.
	for _, c := range []solution.Composition{{NaCl: 0.23}, {KCl: 0.15}, {CaCl2: 0.3}, {MgCl2: 0.25}} {
		cold, warm := ViscosityOf(c, quantity.Celsius(2)), ViscosityOf(c, quantity.Celsius(25))
		require.Greater(t, cold, warm)
		require.Less(t, float64(cold), 12e-3)
		if c.KCl == 0 {
			require.Greater(t, warm, ViscosityOf(solution.Composition{}, quantity.Celsius(25)))
		}
	}
	require.Greater(t, Thick(quantity.Celsius(5)), ViscosityOf(solution.Brine(0.23), quantity.Celsius(5)))
}

// More lift, more length and less bore never give more flow.
func TestFlowFalls(t *testing.T) {
	curve := []Point{{0, 20}, {5e-3, 16}, {1e-2, 8}}
	water := Fluid{1170, 1.9e-3}
	rapid.Check(t, func(t *rapid.T) {
		pipe := Pipe{quantity.Length(rapid.Float64Range(1, 80).Draw(t, "length")), quantity.Depth(rapid.Float64Range(0.02, 0.1).Draw(t, "bore")), Smooth, rapid.Float64Range(0, 20).Draw(t, "fittings")}
		way := Way{[]Pipe{pipe}, quantity.Length(rapid.Float64Range(0, 15).Draw(t, "lift"))}
		at, _, err := Operate(curve, way, water)
		require.NoError(t, err)
		require.Greater(t, float64(at.Flow), 0.0)
		harder := way
		harder.Pipes = []Pipe{pipe}
		switch rapid.IntRange(0, 3).Draw(t, "what") {
		case 0:
			harder.Lift += 1
		case 1:
			harder.Pipes[0].Length *= 1.5
		case 2:
			harder.Pipes[0].Diameter *= 0.9
		case 3:
			harder.Pipes[0].Fittings += 3
		}
		less, _, err := Operate(curve, harder, water)
		require.NoError(t, err)
		require.LessOrEqual(t, float64(less.Flow), float64(at.Flow)*(1+1e-9))
	})
}

func TestOperateRefuses(t *testing.T) {
	easy := Way{[]Pipe{{1, 0.1, Smooth, 0}}, 0}
	for name, curve := range map[string][]Point{
		"one point":    {{0, 10}},
		"flow falls":   {{1e-3, 10}, {1e-3, 9}},
		"head rises":   {{0, 10}, {1e-3, 11}},
		"below ground": {{0, 10}, {1e-3, -1}},
	} {
		_, _, err := Operate(curve, easy, Fluid{1000, 1e-3})
		require.Error(t, err, name)
	}
	curve := []Point{{0, 10}, {1e-3, 9}}
	_, _, err := Operate(curve, Way{Lift: 12}, Fluid{1000, 1e-3})
	require.ErrorContains(t, err, "does not rise")
	at, beyond, err := Operate(curve, easy, Fluid{1000, 1e-3})
	require.NoError(t, err)
	require.True(t, beyond)
	require.Equal(t, quantity.Flow(1e-3), at.Flow)
}
