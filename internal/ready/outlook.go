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
	done   Span    // when a measured charge is dissolved, but for a part that no instrument shows
	now    float64 // the strength at the last reading
	// scatter is the standard deviation of the readings about the way that fits best.
	scatter float64
	// rate is ln k and level the gap from saturation to the level of those that get there.
	rate, level Spread
}

// What is taken of a tank before its first reading. Common practice, no source.
const (
	priorStuck   = 0.01  // a tank in a hundred stops below its target, unless the yard's past says otherwise
	priorCharge  = 0.25  // a tank in four was given a measured charge that ends below leastPlateau
	leastPlateau = 0.244 // where short beds and upflow beds level off
	slowest      = 0.003 / 60
	fastest      = 0.5 / 60 // 1/s
)

// The grid, and how heavy the tails of a reading's error are: Student's with so many degrees of freedom.
const (
	plateaus, charges, stops = 24, 8, 24
	rates, starts            = 9, 5 // about the best of each
	tails                    = 5
	endSteps                 = 5
	endSpread                = 0.0015 // of a measured charge: loader buckets and a water meter
)

// spreads are the multiples of the finest reading error that a reading may really have.
var spreads = [...]float64{1, 1.6, 2.5}

// way is one way to go, with its weight.
type way struct {
	weight             float64
	course             ended
	plateau, gap, rate float64
	stuck              bool
}

// question is what is asked of the readings.
type question struct {
	saturation, target, high float64
	end                      float64 // where a measured charge ends, below saturation; 0 where none is known
	past                     Past
}

// until is the time at which so much of the gap is left; it may lie before the first reading.
func (w way) until(left float64) float64 { return w.course.until(left) / w.rate }

// at is the strength at a time.
func (w way) at(t float64) float64 {
	return w.plateau - w.gap*w.course.left(w.rate*math.Min(t, w.course.at))
}

// look weighs the ways.
func look(points []mixPoint, q question) outlook {
	g := grid{question: q, points: points, error: errorOf(points), e: make([]float64, len(points)), least: math.Inf(1)}
	g.ways = make([]way, 0, (2*plateaus+2*charges+2*stops)*len(spreads)*rates*starts)
	if q.end > 0 {
		g.charge()
	} else {
		g.healthy()
	}
	g.starved()
	g.stopped()
	return g.outlook()
}

// grid collects the ways.
type grid struct {
	question
	points []mixPoint
	error  float64
	ways   []way
	e      []float64 // what is left of the gap at each reading
	least  float64   // squares left by the way that fits best
}

// healthy levels off between leastPlateau and saturation, as a bed in excess, or is a measured charge of which nothing
// is known, that ends above the target. What the past says of the level moves the chances among them.
func (g *grid) healthy() {
	type level struct{ at, prior float64 }
	var beds, ends []level
	sum := 0.0
	weigh := func(at, prior float64) level {
		prior *= g.past.level(g.saturation - at)
		sum += prior
		return level{at, prior}
	}
	for j := range plateaus {
		at := leastPlateau + (g.saturation-leastPlateau)*(float64(j)+0.5)/plateaus
		beds = append(beds, weigh(at, (1-priorCharge)/plateaus))
	}
	for j := range charges {
		at := g.target + (leastPlateau-g.target)*(float64(j)+0.5)/charges
		if at > g.target {
			ends = append(ends, weigh(at, priorCharge/charges))
		}
	}
	all := (1 - g.past.stuck()) / sum
	for _, l := range beds {
		g.add(ended{bed{}, math.Inf(1)}, l.at, l.prior*all, false)
	}
	for _, l := range ends {
		g.ends(l.at, l.prior*all)
	}
}

// charge is a measured charge whose end is known as well as salt and water are measured. One that is to end
// at the target or above is not doubted for the last tenth.
func (g *grid) charge() {
	for j := range endSteps {
		z := 2 * float64(2*j-endSteps+1) / float64(endSteps-1)
		p := g.end + endSpread*z
		if p > g.target && p < g.saturation-leastExcessSalt/2 || g.end <= g.target {
			g.ends(p, (1-g.past.stuck())*math.Exp(-z*z/2)/endSteps)
		}
	}
}

// ends adds a charge: its grains shrink, or the heap of it lies so that its surface stays.
func (g *grid) ends(p, prior float64) {
	g.add(ended{newGrains(g.saturation, p, p-g.points[0].s), math.Inf(1)}, p, prior/2, false)
	g.add(ended{bed{}, math.Inf(1)}, p, prior/2, false)
}

// starved levels off anywhere below the target.
func (g *grid) starved() {
	low := math.Max(0.02, g.points[len(g.points)-1].s-4*g.error)
	if low >= g.target {
		low = g.target - 4*g.error
	}
	for j := range plateaus {
		g.add(ended{bed{}, math.Inf(1)}, low+(g.target-low)*(float64(j)+0.5)/plateaus, g.past.stuck()/2/plateaus, true)
	}
}

// stopped has gained like a healthy one until its salt was gone.
func (g *grid) stopped() {
	last := g.points[len(g.points)-1].t
	for i := range stops {
		for _, p := range []float64{leastPlateau, g.saturation} {
			g.add(ended{bed{}, last * (float64(i) + 0.5) / stops}, p, g.past.stuck()/2/stops/2, true)
		}
	}
}

// fit finds the gap that fits best at a rate, with its standard deviation for an error of 1, and the squares left.
func (g *grid) fit(c ended, k, plateau float64) (gap, step, left float64) {
	var ee, ey, yy float64
	for i, p := range g.points {
		e := c.left(k * math.Min(p.t, c.at))
		y := plateau - p.s
		g.e[i] = e
		ee, ey, yy = ee+e*e, ey+e*y, yy+y*y
	}
	return ey / ee, 1 / math.Sqrt(ee), yy - ey*ey/ee
}

// add weighs a course to a plateau with the rates and the starts that fit best. A way that is stuck and yet comes above
// the target is none.
func (g *grid) add(c ended, plateau, prior float64, stuck bool) {
	left := func(log float64) float64 { _, _, l := g.fit(c, math.Exp(log), plateau); return l }
	low, high := math.Log(slowest), math.Log(fastest)
	best := root.Least(left, low, high, 24)
	g.least = math.Min(g.least, left(best))
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
			fitted, step, _ := g.fit(c, k, plateau)
			weight := prior * wide * step * sigma / float64(len(spreads)) * g.past.rate(log)
			g.starts(way{weight, c, plateau, fitted, k, stuck}, step*sigma, sigma)
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
func (g *grid) outlook() outlook {
	all, stuck, now := 0.0, 0.0, 0.0
	last := g.points[len(g.points)-1].t
	for _, w := range g.ways {
		all += w.weight
		now += w.weight * w.at(last)
		if w.stuck {
			stuck += w.weight
		}
	}
	out := outlook{
		target: g.when(g.reaching(g.target)), high: g.when(g.reaching(g.high)), done: g.when(way.dissolved),
		rate:    g.spread(func(w way) float64 { return math.Log(w.rate) }),
		level:   g.spread(func(w way) float64 { return g.saturation - w.plateau }),
		scatter: math.Sqrt(g.least / math.Max(1, float64(len(g.points)-2))),
	}
	if all > 0 {
		out.never, out.now = stuck/all, now/all
	}
	return out
}

// spread sums up a figure of the ways that get there.
func (g *grid) spread(of func(way) float64) Spread {
	var sum, mean, squares float64
	for _, w := range g.ways {
		if x := of(w); !w.stuck {
			sum, mean, squares = sum+w.weight, mean+w.weight*x, squares+w.weight*x*x
		}
	}
	if sum == 0 {
		return Spread{}
	}
	mean /= sum
	return Spread{mean, math.Sqrt(math.Max(0, squares/sum-mean*mean))}
}

// reaching tells when a way comes to a strength; never where it levels off below.
func (g *grid) reaching(strength float64) func(way) float64 {
	return func(w way) float64 {
		if w.plateau <= strength {
			return math.Inf(1)
		}
		return w.until((w.plateau - strength) / w.gap)
	}
}

// unseen is the strength that no instrument shows: half a mark of the finest hydrometer.
const unseen = 0.0005

// dissolved is when the last of a charge is gone, or all but what no instrument shows.
func (w way) dissolved() float64 {
	if left := unseen / w.gap; left < 1 {
		return w.until(left)
	}
	return 0
}

// when is the median, with the range that holds 95 in 100, of the time at which the healthy ways come to something.
func (g *grid) when(at func(way) float64) Span {
	type moment struct{ t, weight float64 }
	all := make([]moment, 0, len(g.ways))
	sum := 0.0
	for _, w := range g.ways {
		if !w.stuck && w.weight > 0 {
			all = append(all, moment{at(w), w.weight})
			sum += w.weight
		}
	}
	if sum == 0 {
		return Span{math.Inf(1), math.Inf(1), math.Inf(1)}
	}
	slices.SortFunc(all, func(a, b moment) int { return cmp.Compare(a.t, b.t) })
	quantile := func(share float64) float64 {
		before := 0.0
		for _, m := range all {
			if before += m.weight; before >= share*sum {
				return m.t
			}
		}
		return all[len(all)-1].t
	}
	return Span{quantile(0.5), quantile(0.025), quantile(0.975)}
}
