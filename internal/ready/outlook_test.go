package ready

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// drawn are readings of a tank, by a law that is written here and not taken from the program: minutes and fractions.
func drawn(dice *rand.Rand, kind string, n int, noise float64) (points []mixPoint, reaches float64) {
	rate := 0.02 + 0.06*dice.Float64() // a minute
	start := 0.02 + 0.08*dice.Float64()
	level := 0.244 + 0.0195*dice.Float64()
	stop := math.Inf(1)
	span := math.Log((level-start)/(level-0.20)) / rate * (0.8 + 0.5*dice.Float64())
	if kind == "run out" {
		end := 0.18 + 0.052*dice.Float64()
		stop = math.Log((level-start)/(level-end)) / rate
		span = stop * (1.5 + 2.5*dice.Float64())
	}
	if kind == "charge" {
		level = 0.234 + 0.006*dice.Float64()
	}
	reaches = 60 * math.Log((level-start)/(level-0.233)) / rate
	for i := range n {
		t := span * float64(i) / float64(n-1)
		s := level - (level-start)*math.Exp(-rate*math.Min(t, stop)) + noise/100*dice.NormFloat64()
		points = append(points, mixPoint{t: 60 * t, s: math.Round(s*1000) / 1000, error: 0.001})
	}
	return points, reaches
}

// outcomes are those of many tanks of a kind of readings, in parts of a hundred.
type outcomes struct{ promised, never, held, charge float64 }

func simulated(n int, noise float64, tanks int) (o outcomes) {
	dice := rand.New(rand.NewPCG(1, uint64(n)))
	each := 100 / float64(tanks)
	const saturation, target, high = 0.2635, 0.233, 0.24
	for range tanks {
		stuck, _ := drawn(dice, "run out", n, noise)
		if look(stuck, saturation, target, high).never <= mostNever {
			o.promised += each
		}
		bed, reaches := drawn(dice, "bed", n, noise)
		of := look(bed, saturation, target, high)
		if of.never > mostNever {
			o.never += each
		}
		if of.target.Low <= reaches && reaches <= of.target.High {
			o.held += each
		}
		charge, _ := drawn(dice, "charge", n, noise)
		if look(charge, saturation, target, high).never > mostNever {
			o.charge += each
		}
	}
	return o
}

// A tank whose salt has run out is not promised a time, a healthy one is not told that it may never get there, and
// the range of the time holds. BRINEYARD_TABLE=500 makes the table of docs/method.md, with so many tanks of each.
func TestOutlook(t *testing.T) {
	tanks, counts := 80, []int{6, 12}
	if asked, err := strconv.Atoi(os.Getenv("BRINEYARD_TABLE")); err == nil {
		tanks, counts = asked, []int{3, 4, 6, 8, 12}
	}
	for noise, most := range map[float64][2]float64{0.1: {2, 4}, 0.2: {5, 12}, 0.3: {5, 12}} {
		for _, n := range counts {
			o := simulated(n, noise, tanks)
			t.Logf("| %.1f | %d | %.1f | %.1f | %.1f | %.1f |", noise, n, o.promised, o.never, o.charge, o.held)
			if n < 6 {
				continue
			}
			require.LessOrEqual(t, o.promised, most[0], "noise %g, %d readings", noise, n)
			require.LessOrEqual(t, o.never, most[1], "noise %g, %d readings", noise, n)
			require.Greater(t, o.held, 85.0, "noise %g, %d readings", noise, n)
		}
	}
}
