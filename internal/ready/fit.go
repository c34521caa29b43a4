package ready

import (
	"math"

	"brineyard/internal/root"
)

// mixFit is strength = plateau - gap exp(-k t), with the standard deviation of the
// readings and the covariance of gap and ln k.
type mixFit struct {
	plateau, gap, k float64
	sigma           float64
	quantile        float64 // of the 95 % band
	cov             [2][2]float64
	free            int // degrees of freedom left
	rss             float64
}

func (f mixFit) at(t float64) float64 { return f.plateau - f.gap*math.Exp(-f.k*t) }

// fitMixing fits gap and k with the plateau at saturation, by Gauss-Newton in gap
// and ln k from the straight line of ln(plateau - strength).
func fitMixing(points []mixPoint, plateau float64) mixFit {
	f := straightLine(points, plateau)
	// Readings at saturation, or above it in warmer samples, would make the rate grow
	// without end: none tells more than that exp(-8) of the gap is left, 1e-4 of strength.
	fastest := 8 / (points[1].t - points[0].t)
	for range 50 {
		a, b := f.normal(points)
		if !solve2(&a, &b) {
			break
		}
		step := 1.0
		for ; step > 1e-6; step /= 2 {
			g := f
			g.gap += step * b[0]
			g.k = math.Min(fastest, g.k*math.Exp(step*math.Max(-1, math.Min(1, b[1]))))
			g.rss = g.residuals(points)
			if g.rss <= f.rss {
				f = g
				break
			}
		}
		if step <= 1e-6 || math.Abs(b[0])+math.Abs(b[1]) < 1e-12 {
			break
		}
	}
	f.errors(points)
	return f
}

// straightLine starts the fit. Readings at saturation are taken as just below.
func straightLine(points []mixPoint, plateau float64) mixFit {
	var n, st, sy, stt, sty float64
	for _, p := range points {
		y := math.Log(math.Max(plateau-p.s, 1e-4))
		n, st, sy, stt, sty = n+1, st+p.t, sy+y, stt+p.t*p.t, sty+p.t*y
	}
	slope := (n*sty - st*sy) / (n*stt - st*st)
	f := mixFit{plateau: plateau, k: math.Max(-slope, 1e-9)}
	f.gap = math.Exp((sy + f.k*st) / n)
	f.rss = f.residuals(points)
	return f
}

func (f mixFit) residuals(points []mixPoint) float64 {
	sum := 0.0
	for _, p := range points {
		d := p.s - f.at(p.t)
		sum += d * d
	}
	return sum
}

// normal returns the normal equations in gap and ln k.
func (f mixFit) normal(points []mixPoint) (a [2][2]float64, b [2]float64) {
	for _, p := range points {
		e := math.Exp(-f.k * p.t)
		j := [2]float64{-e, f.gap * f.k * p.t * e}
		d := p.s - f.at(p.t)
		for u := range 2 {
			b[u] += j[u] * d
			for v := range 2 {
				a[u][v] += j[u] * j[v]
			}
		}
	}
	return a, b
}

func solve2(a *[2][2]float64, b *[2]float64) bool {
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	if !(math.Abs(det) > 1e-300) {
		return false
	}
	b[0], b[1] = (b[0]*a[1][1]-b[1]*a[0][1])/det, (a[0][0]*b[1]-a[1][0]*b[0])/det
	return true
}

// errors sets the covariance: with the scatter of the readings where there are at
// least four, else with what a hydrometer can be read to.
func (f *mixFit) errors(points []mixPoint) {
	careful := errorOf(points)
	f.free = len(points) - 2
	f.sigma, f.quantile = careful, 1.96
	if f.free >= 2 {
		// Readings that agree better than an eye can read do so by chance.
		f.sigma = math.Max(math.Sqrt(f.rss/float64(f.free)), careful/4)
		f.quantile = studentQuantile(f.free)
	}
	a, _ := f.normal(points)
	det := a[0][0]*a[1][1] - a[0][1]*a[1][0]
	v := f.sigma * f.sigma / det
	f.cov = [2][2]float64{{v * a[1][1], -v * a[0][1]}, {-v * a[1][0], v * a[0][0]}}
}

// studentQuantile is the two-sided 95 % quantile of Student's distribution, exact
// for 2 and good to 0.002 beyond (Cornish-Fisher expansion, Abramowitz and Stegun
// 26.7.5).
func studentQuantile(free int) float64 {
	if free == 2 {
		return 4.302653
	}
	const z = 1.959964
	n := float64(free)
	z3, z5, z7 := z*z*z, z*z*z*z*z, z*z*z*z*z*z*z
	return z + (z3+z)/(4*n) + (5*z5+16*z3+3*z)/(96*n*n) + (3*z7+19*z5+17*z3-15*z)/(384*n*n*n) +
		(79*z7*z*z+776*z7+1482*z5-1920*z3-945*z)/(92160*n*n*n*n)
}

// rate returns k with its band, which is even in ln k.
func (f mixFit) rate() Span {
	spread := f.quantile * math.Sqrt(math.Max(0, f.cov[1][1]))
	return Span{f.k, f.k * math.Exp(-spread), f.k * math.Exp(spread)}
}

// fault tells whether the readings follow the law, and if not, why.
func (f *mixFit) fault(points []mixPoint) (Fault, int) {
	careful := errorOf(points)
	clear := 4 * careful // beyond any careful reading
	gain := points[len(points)-1].s - points[0].s
	switch {
	case gain < -clear:
		return Falling, 0
	case gain < clear:
		return Stalled, 0
	}
	if f.gap <= 0 || math.Sqrt(f.rss/float64(max(1, f.free))) < 2*careful && f.free < 2 {
		return NoFault, 0
	}
	if i, ok := f.outlier(points); ok {
		return OneWrong, i
	}
	if g, ok := f.lowerPlateau(points); ok {
		*f = g
		return Starved, 0
	}
	if f.free > 0 && math.Sqrt(f.rss/float64(f.free)) > mostScatter*careful {
		return Scattered, 0
	}
	return NoFault, 0
}

// outlier finds a reading without which the others fit well, and far better.
func (f mixFit) outlier(points []mixPoint) (int, bool) {
	careful := errorOf(points)
	if len(points) < 4 {
		return 0, false
	}
	best, at := math.Inf(1), -1
	for i := range points {
		rest := append(append([]mixPoint(nil), points[:i]...), points[i+1:]...)
		g := fitMixing(rest, f.plateau)
		off := math.Abs(points[i].s - g.at(points[i].t))
		if g.rss < best && off > 6*careful && math.Sqrt(g.rss/float64(max(1, g.free))) < 2*careful {
			best, at = g.rss, i
		}
	}
	return at, at >= 0 && f.rss > 9*best
}

// lowerPlateau fits a plateau below saturation, by trying plateaus and keeping the
// best, and takes it when it explains far more than chance would.
func (f mixFit) lowerPlateau(points []mixPoint) (mixFit, bool) {
	if len(points) < 5 {
		return f, false
	}
	top := 0.0
	for _, p := range points {
		top = math.Max(top, p.s)
	}
	misfit := func(plateau float64) float64 { return fitMixing(points, plateau).rss }
	best := f
	plateau := root.Least(misfit, top+1e-4, f.plateau, 40)
	if g := fitMixing(points, plateau); g.rss < best.rss {
		best = g
	}
	// Variance explained by one more parameter against what is left (F): by chance
	// above 20 in 1 of 100 with two readings to spare, and rarer with more.
	free := float64(len(points) - 3)
	left := math.Max(best.rss/free, math.Pow(errorOf(points)/3, 2))
	return best, f.plateau-best.plateau > leastGap && (f.rss-best.rss)/left > 20
}

// leastGap is how far below saturation a plateau has to lie to be told from it: what
// wrong temperatures along the way can feign.
const leastGap = 0.015
