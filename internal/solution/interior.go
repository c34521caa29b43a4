package solution

import "math"

// interior is an interior point: solids n with slacks s, liquid y with slacks t.
type interior struct {
	n, s  column
	y, mu moles
	t     moles
}

const (
	interiorRounds = 300
	// Below a complementarity gap of gapFirst (mol of RT per kg of water) settle
	// tries to tell the solids that are present from those that are not. Close to
	// the onset of a solid, or with a trace of a salt, that takes a smaller gap:
	// each attempt waits for the gap to fall to gapFaster of the last.
	gapFirst, gapLast = 1e-10, 1e-22
	gapFaster         = 1e-3
	// stayInside is the share of the way to the nearest bound that a step takes.
	stayInside = 0.95
	// leastLeft is the share of a component that a step must leave in the liquid,
	// so that the model is not evaluated far outside its range.
	leastLeft = 0.3
)

// minimize returns mol of each solid at the lowest Gibbs energy.
func (a *assemblage) minimize() (column, bool) {
	p, next := a.start(), gapFirst
	for range interiorRounds {
		gap := a.gap(p)
		if gap < next {
			if n, ok := a.settle(p); ok {
				return n, true
			}
			next = gap * gapFaster
		}
		if gap < gapLast || !a.step(p, 0.1*gap) {
			break
		}
	}
	return column{}, false
}

// start returns a point well inside: mostly liquid, with a little of each solid.
func (a *assemblage) start() *interior {
	p := &interior{}
	for k := range a.n {
		share := math.Inf(1)
		for _, j := range a.parts[:a.nparts] {
			if f := a.formula(k, j); f > 0 {
				share = math.Min(share, a.total[j]/f)
			}
		}
		p.n[k] = 0.02 * share
	}
	p.y = a.liquid(&p.n)
	p.mu = a.potentials(&p.y)
	for k := range a.n {
		p.s[k] = math.Max(0.1, a.affinity(k, &p.mu))
	}
	for _, j := range a.parts[:a.nparts] {
		p.t[j] = 0.1 / p.y[j]
	}
	return p
}

// affinity returns ln K less the logarithm of the activity product of the k-th solid:
// above zero the liquid is not saturated with it.
func (a *assemblage) affinity(k int, mu *moles) float64 {
	d := a.solid(k)
	x := a.logK[k] - d.water*mu[0]
	if d.salt != AllSalts {
		x -= mu[1+d.salt]
	}
	return x
}

// gap returns the mean complementarity.
func (a *assemblage) gap(p *interior) float64 {
	sum := 0.0
	for k := range a.n {
		sum += p.n[k] * p.s[k]
	}
	for _, j := range a.parts[:a.nparts] {
		sum += p.y[j] * p.t[j]
	}
	return sum / float64(a.n+a.nparts)
}

// step takes one Newton step toward the point where every complementarity is goal. It
// is false when the equations are singular. With y = total - sum of a n, the conditions
// in n alone are
//
//	affinity(k) + a t - s = 0,  n s = goal,  y t = goal
//
// and the Newton matrix is a (H + t/y) a' + s/n.
func (a *assemblage) step(p *interior, goal float64) bool {
	h := a.hessian(&p.y, &p.mu)
	for _, j := range a.parts[:a.nparts] {
		h[j][j] += p.t[j] / p.y[j]
	}
	var matrix square
	var dn column
	for k := range a.n {
		residual := a.affinity(k, &p.mu) - goal/p.n[k]
		for _, j := range a.parts[:a.nparts] {
			residual += a.formula(k, j) * goal / p.y[j]
		}
		dn[k] = -residual
		for l := range a.n {
			for _, i := range a.parts[:a.nparts] {
				f := a.formula(k, i)
				if f == 0 {
					continue
				}
				for _, j := range a.parts[:a.nparts] {
					matrix[k][l] += f * h[i][j] * a.formula(l, j)
				}
			}
		}
		matrix[k][k] += p.s[k] / p.n[k]
	}
	if !solve(&matrix, &dn, a.n) {
		return false
	}
	a.move(p, &dn, goal)
	return true
}

// move goes as far along a step as the bounds allow.
func (a *assemblage) move(p *interior, dn *column, goal float64) {
	var ds column
	var dy, dt moles
	length := 1.0
	limit := func(x, dx, share float64) {
		if dx < 0 {
			length = math.Min(length, -share*x/dx)
		}
	}
	for k := range a.n {
		ds[k] = (goal-p.s[k]*dn[k])/p.n[k] - p.s[k]
		limit(p.n[k], dn[k], stayInside)
		limit(p.s[k], ds[k], stayInside)
		for _, j := range a.parts[:a.nparts] {
			dy[j] -= a.formula(k, j) * dn[k]
		}
	}
	for _, j := range a.parts[:a.nparts] {
		dt[j] = (goal-p.t[j]*dy[j])/p.y[j] - p.t[j]
		limit(p.y[j], dy[j], 1-leastLeft)
		limit(p.t[j], dt[j], stayInside)
	}
	for k := range a.n {
		p.n[k] += length * dn[k]
		p.s[k] += length * ds[k]
	}
	for _, j := range a.parts[:a.nparts] {
		p.y[j] += length * dy[j]
		p.t[j] += length * dt[j]
	}
	p.mu = a.potentials(&p.y)
}
