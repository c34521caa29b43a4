package ready

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

const simSaturation, simTarget, simHigh = 0.2635, 0.233, 0.24

// simTank is a tank that goes by a law that is written here and not taken from the program. Times are in minutes.
type simTank struct {
	rate, start, level, stop float64
	points                   []mixPoint
	reaches                  float64 // s
}

// reader is how its readings are taken.
type reader struct {
	count       int
	noise, mark float64 // fractions
}

// drawn is one tank of a kind, read.
func drawn(dice *rand.Rand, kind string, r reader) simTank {
	t := simTank{rate: 0.02 + 0.06*dice.Float64(), start: 0.02 + 0.08*dice.Float64(), level: 0.244 + 0.0195*dice.Float64(), stop: math.Inf(1)}
	span := math.Log((t.level-t.start)/(t.level-0.20)) / t.rate * (0.8 + 0.5*dice.Float64())
	strength := func(at float64) float64 {
		return t.level - (t.level-t.start)*math.Exp(-t.rate*math.Min(at, t.stop))
	}
	switch kind {
	case "run out":
		end := 0.18 + 0.052*dice.Float64()
		t.stop = math.Log((t.level-t.start)/(t.level-end)) / t.rate
		span = t.stop * (1.5 + 2.5*dice.Float64())
	case "charge":
		t.level = 0.234 + 0.006*dice.Float64()
	case "grains":
		t.level = 0.234 + 0.006*dice.Float64()
		strength = t.shrinking()
	}
	t.reaches = 60 * math.Log((t.level-t.start)/(t.level-simTarget)) / t.rate
	if kind == "grains" {
		at := 0.0
		for strength(at) < simTarget {
			at += 0.05
		}
		t.reaches, span = 60*at, at*(0.4+0.3*dice.Float64())
	}
	// What a careful reader states: his own spread, and that of the mark.
	careful := math.Max(readingError, math.Hypot(0.001, r.mark/math.Sqrt(12)))
	for i := range r.count {
		at := span * float64(i) / float64(r.count-1)
		s := strength(at) + r.noise*dice.NormFloat64()
		t.points = append(t.points, mixPoint{t: 60 * at, s: math.Round(s/r.mark) * r.mark, error: careful})
	}
	return t
}

// shrinking is the law of shrinking grains, by steps of 0.05 min.
func (t *simTank) shrinking() func(float64) float64 {
	course := []float64{t.start}
	s := t.start
	for range 40000 {
		left := math.Max(0, (t.level-s)/(t.level-t.start))
		s += 0.05 * t.rate * (simSaturation - s) * math.Pow(left, 2.0/3)
		course = append(course, math.Min(s, t.level))
	}
	return func(at float64) float64 { return course[min(len(course)-1, int(at/0.05))] }
}

// known is how wide the range of one is who knows the law, between which levels a bed ends, and the noise: every level
// and rate of a grid weighed with a normal error, the start as it fits best.
func (t simTank) known(r reader) float64 {
	sigma := math.Hypot(r.noise, r.mark/math.Sqrt(12))
	type moment struct{ at, weight float64 }
	var all []moment
	best := math.Inf(1)
	for i := range 16 {
		level := 0.244 + 0.0195*(float64(i)+0.5)/16
		for j := range 120 {
			k := 0.01 * math.Pow(12, float64(j)/119) / 60
			var ee, ey, yy float64
			for _, p := range t.points {
				e, y := math.Exp(-k*p.t), level-p.s
				ee, ey, yy = ee+e*e, ey+e*y, yy+y*y
			}
			misfit := (yy - ey*ey/ee) / sigma / sigma
			best = math.Min(best, misfit)
			all = append(all, moment{math.Log(ey/ee/(level-simTarget)) / k, misfit})
		}
	}
	sum := 0.0
	for i := range all {
		all[i].weight = math.Exp((best - all[i].weight) / 2)
		sum += all[i].weight
	}
	slices.SortFunc(all, func(a, b moment) int { return cmp.Compare(a.at, b.at) })
	at, before := []float64{}, 0.0
	for _, m := range all {
		before += m.weight
		if len(at) == 0 && before > 0.025*sum || len(at) == 1 && before > 0.975*sum {
			at = append(at, m.at)
		}
	}
	return at[len(at)-1] - at[0]
}

// outcomes are those of many tanks of a kind of readings, in parts of a hundred; wide is the median of a bed's range
// over that of one who knows the law.
type outcomes struct {
	promised, never, held, charge, grains, wide float64
	told, toldHeld                              float64 // a charge whose end is known
}

func simulated(r reader, tanks int) (o outcomes) {
	dice := rand.New(rand.NewPCG(1, uint64(r.count)))
	each := 100 / float64(tanks)
	weigh := func(t simTank, end float64) outlook {
		return look(t.points, question{saturation: simSaturation, target: simTarget, high: simHigh, end: end})
	}
	count := func(into *float64, yes bool) {
		if yes {
			*into += each
		}
	}
	var wide []float64
	for range tanks {
		count(&o.promised, weigh(drawn(dice, "run out", r), 0).never <= mostNever)
		tank := drawn(dice, "bed", r)
		of := weigh(tank, 0)
		count(&o.never, of.never > mostNever)
		count(&o.held, of.target.Low <= tank.reaches && tank.reaches <= of.target.High)
		wide = append(wide, (of.target.High-of.target.Low)/tank.known(r))
		count(&o.charge, weigh(drawn(dice, "charge", r), 0).never > mostNever)
		tank = drawn(dice, "grains", r)
		count(&o.grains, weigh(tank, 0).never > mostNever)
		of = weigh(tank, tank.level)
		count(&o.told, of.never > mostNever)
		count(&o.toldHeld, of.target.Low <= tank.reaches && tank.reaches <= of.target.High)
	}
	slices.Sort(wide)
	o.wide = wide[len(wide)/2]
	return o
}

// A tank whose salt has run out is not promised a time, a healthy one is not told that it may never get there, and
// the range of the time holds. BRINEYARD_TABLE=2000 makes the tables of docs/method.md, with so many tanks of each.
func TestOutlook(t *testing.T) {
	tanks, counts, marks := 30, []int{6, 12}, []float64{0.001}
	if asked := tableTanks(); asked > 0 {
		tanks, counts, marks = asked, []int{3, 4, 6, 8, 12}, []float64{0.001, 0.005}
	}
	for _, mark := range marks {
		for _, noise := range []float64{0.1, 0.2, 0.3} {
			for _, n := range counts {
				t.Run(fmt.Sprintf("mark %g, noise %g, %d readings", 100*mark, noise, n), func(t *testing.T) {
					t.Parallel()
					o := simulated(reader{n, noise / 100, mark}, tanks)
					t.Logf("| %.1f | %.1f | %d | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f | %.1f |",
						100*mark, noise, n, o.promised, o.never, o.charge, o.grains, o.held, o.wide, o.told, o.toldHeld)
					if n < 6 || mark > 0.001 {
						return
					}
					most := map[float64][2]float64{0.1: {2, 4}, 0.2: {5, 12}, 0.3: {5, 12}}[noise]
					// One tank of the few more than the table allows.
					slack := 100.5 / float64(tanks)
					require.LessOrEqual(t, o.promised, most[0]+slack)
					require.LessOrEqual(t, o.never, most[1]+slack)
					require.LessOrEqual(t, o.told, most[1]+slack)
					require.Greater(t, o.held, 85.0)
					require.Greater(t, o.toldHeld, 85.0)
					require.Less(t, o.wide, 2.0)
				})
			}
		}
	}
}

// tableTanks is how many tanks a cell of the tables is asked of; 0 for no table.
func tableTanks() int {
	asked, _ := strconv.Atoi(os.Getenv("BRINEYARD_TABLE"))
	return asked
}
