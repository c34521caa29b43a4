package ready

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/root"
)

// outlook weighs every way in which a tank may go on, by how well its readings fit: a bed in excess that
// drives it towards saturation or somewhat below, a bed that starves, and salt that has run out. It
// is a posterior on a grid; the start is fitted for each, with steps about it.
type outlook struct {
	never  float64 // chance that it never reaches the target
	target Span    // when it does, in s from the first reading; Value is the median
	high   Span    // likewise for the upper end of the band
}

// What is taken of a tank before its first reading. Common practice, no source.
const (
	priorStuck   = 0.01  // a tank in a hundred stops below its target
	priorCharge  = 0.1   // a tank in ten was given a measured charge that ends below leastPlateau
	leastPlateau = 0.244 // where short beds and upflow beds level off
	slowest      = 0.003 / 60
	fastest      = 0.5 / 60 // 1/s
)

// The grid, and how heavy the tails of a reading's error are: Student's with so many degrees of freedom.
const (
	plateaus, charges, stops = 24, 8, 24
	rates, starts            = 9, 5 // about the best of each
	tails                    = 5
)

// spreads are the multiples of the finest reading error that a reading may really have.
var spreads = [...]float64{1, 1.6, 2.5}

// way is one way to go, with its weight.
type way struct {
	weight             float64
	plateau, gap, rate float64
	stuck              bool
}

// look weighs the ways for a target and the upper end of the band.
func look(points []mixPoint, saturation, target, high float64) outlook {
	g := grid{points: points, error: errorOf(points), target: target, e: make([]float64, len(points))}
	g.ways = make([]way, 0, (2*plateaus+charges+2*stops)*len(spreads)*rates*starts)
	g.healthy(saturation)
	g.starved()
	g.stopped(saturation)
	return g.outlook(target, high)
}

// grid collects the ways.
type grid struct {
	points []mixPoint
	error  float64
	target float64
	ways   []way
	e      []float64 // what is left of the gap at each reading
}

// healthy levels off between leastPlateau and saturation, or as a measured charge above the target.
func (g *grid) healthy(saturation float64) {
	for j := range plateaus {
		p := leastPlateau + (saturation-leastPlateau)*(float64(j)+0.5)/plateaus
		g.add(p, math.Inf(1), (1-priorStuck-priorCharge)/plateaus, false)
	}
	for j := range charges {
		p := g.target + (leastPlateau-g.target)*(float64(j)+0.5)/charges
		if p > g.target {
			g.add(p, math.Inf(1), priorCharge/charges, false)
		}
	}
}

// starved levels off anywhere below the target.
func (g *grid) starved() {
	low := math.Max(0.02, g.points[len(g.points)-1].s-4*g.error)
	if low >= g.target {
		low = g.target - 4*g.error
	}
	for j := range plateaus {
		g.add(low+(g.target-low)*(float64(j)+0.5)/plateaus, math.Inf(1), priorStuck/2/plateaus, true)
	}
}

// stopped has gained like a healthy one until its salt was gone.
func (g *grid) stopped(saturation float64) {
	last := g.points[len(g.points)-1].t
	for i := range stops {
		for _, p := range []float64{leastPlateau, saturation} {
			g.add(p, last*(float64(i)+0.5)/stops, priorStuck/2/stops/2, true)
		}
	}
}

// fit finds the gap that fits best at a rate, with its standard deviation for an error of 1, and the squares left.
func (g *grid) fit(k, plateau, ended float64) (gap, step, left float64) {
	var ee, ey, yy float64
	for i, p := range g.points {
		e := math.Exp(-k * math.Min(p.t, ended))
		y := plateau - p.s
		g.e[i] = e
		ee, ey, yy = ee+e*e, ey+e*y, yy+y*y
	}
	return ey / ee, 1 / math.Sqrt(ee), yy - ey*ey/ee
}

// add weighs a plateau, where nothing changes after a time, with the rates and the starts that fit best. A way that is
// stuck and yet comes above the target is none.
func (g *grid) add(plateau, ended, prior float64, stuck bool) {
	left := func(log float64) float64 { _, _, l := g.fit(math.Exp(log), plateau, ended); return l }
	low, high := math.Log(slowest), math.Log(fastest)
	best := root.Least(left, low, high, 24)
	const h = 0.05
	bend := (left(best+h) - 2*left(best) + left(best-h)) / h / h
	for _, spread := range spreads {
		sigma := spread * g.error
		wide := math.Min((high-low)/rates, sigma*math.Sqrt(2/math.Max(bend, 1e-12))*0.8)
		for i := range rates {
			log := best + wide*float64(i-rates/2)
			if log < low || log > high {
				continue
			}
			k := math.Exp(log)
			fitted, step, _ := g.fit(k, plateau, ended)
			g.starts(way{prior * wide * step * sigma / float64(len(spreads)), plateau, fitted, k, stuck}, step*sigma, sigma)
		}
	}
}

// starts adds a way with the gaps about its own.
func (g *grid) starts(w way, step, sigma float64) {
	middle, prior := w.gap, w.weight
	for j := range starts {
		w.gap = middle + step*float64(j-starts/2)
		end := w.plateau - w.gap*g.e[len(g.e)-1]
		if w.gap <= 0 || w.plateau-w.gap < -0.01 || w.stuck && w.plateau >= g.target && end >= g.target {
			continue
		}
		w.weight = prior * g.likelihood(w.plateau, w.gap, sigma)
		g.ways = append(g.ways, w)
	}
}

// likelihood is that of the readings, without what all ways share.
func (g *grid) likelihood(plateau, gap, sigma float64) float64 {
	product := 1.0
	for i, p := range g.points {
		d := (p.s - plateau + gap*g.e[i]) / sigma
		product *= 1 + d*d/tails
	}
	return math.Pow(product, -(tails+1)/2.0) * math.Pow(g.error/sigma, float64(len(g.points)))
}

// outlook sums the ways up.
func (g *grid) outlook(target, high float64) outlook {
	all, stuck := 0.0, 0.0
	for _, w := range g.ways {
		all += w.weight
		if w.stuck {
			stuck += w.weight
		}
	}
	out := outlook{target: g.when(target), high: g.when(high)}
	if all > 0 {
		out.never = stuck / all
	}
	return out
}

// when is the median, with the range that holds 95 in 100, of the time at which the healthy ways reach a strength.
func (g *grid) when(strength float64) Span {
	type moment struct{ t, weight float64 }
	all := make([]moment, 0, (plateaus+charges)*len(spreads)*rates*starts)
	sum := 0.0
	for _, w := range g.ways {
		if !w.stuck && w.weight > 0 {
			t := math.Inf(1) // it levels off below
			if w.plateau > strength {
				t = math.Log(w.gap/(w.plateau-strength)) / w.rate
			}
			all = append(all, moment{t, w.weight})
			sum += w.weight
		}
	}
	if sum == 0 {
		return Span{math.Inf(1), math.Inf(1), math.Inf(1)}
	}
	slices.SortFunc(all, func(a, b moment) int { return cmp.Compare(a.t, b.t) })
	at := func(share float64) float64 {
		before := 0.0
		for _, m := range all {
			if before += m.weight; before >= share*sum {
				return m.t
			}
		}
		return all[len(all)-1].t
	}
	return Span{at(0.5), at(0.025), at(0.975)}
}
