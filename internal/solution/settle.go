package solution

import "math"

// settle makes a point near the solution exact: the liquid is just saturated with the
// solids that are present, and the others are absent.
func (a *assemblage) settle(p *interior) (column, bool) {
	var there [solidCount]int
	count := 0
	for k := range a.n {
		if p.n[k] > p.s[k] {
			there[count] = k
			count++
		}
	}
	if a.dry(p) {
		return a.allSolid(there[:count])
	}
	return a.saturate(p, there[:count])
}

// dry reports that the liquid is vanishing.
func (a *assemblage) dry(p *interior) bool { return p.y[0] < p.t[0] }

// saturate solves affinity = 0 for the solids that are present, by Newton's method in
// their amounts.
func (a *assemblage) saturate(p *interior, there []int) (column, bool) {
	var n column
	for _, k := range there {
		n[k] = p.n[k]
	}
	const rounds, enough = 30, 1e-12
	for range rounds {
		y := a.liquid(&n)
		mu := a.potentials(&y)
		worst := 0.0
		var rhs column
		for i, k := range there {
			rhs[i] = -a.affinity(k, &mu)
			worst = math.Max(worst, math.Abs(rhs[i]))
		}
		if worst < enough || len(there) == 0 {
			return n, a.valid(&n, &mu)
		}
		h := a.hessian(&y, &mu)
		var matrix square
		for i, k := range there {
			for j, l := range there {
				for _, u := range a.parts[:a.nparts] {
					for _, v := range a.parts[:a.nparts] {
						matrix[i][j] += a.formula(k, u) * h[u][v] * a.formula(l, v)
					}
				}
			}
		}
		if !solve(&matrix, &rhs, len(there)) {
			return n, false
		}
		for i, k := range there {
			n[k] += rhs[i]
		}
	}
	y := a.liquid(&n)
	mu := a.potentials(&y)
	return n, a.valid(&n, &mu)
}

// valid reports that no amount is below zero and nothing is supersaturated. It sets
// amounts that are just below zero to zero.
func (a *assemblage) valid(n *column, mu *moles) bool {
	y := a.liquid(n)
	// With very little liquid its ratios have lost digits.
	slack := 1e-8 + 1e-13*a.total[0]/y[0]
	for k := range a.n {
		if !(n[k] >= -slack) || !(a.affinity(k, mu) >= -slack) {
			return false
		}
		n[k] = math.Max(n[k], 0)
	}
	for _, j := range a.parts[:a.nparts] {
		if !(y[j] > 0) {
			return false
		}
	}
	return true
}

// allSolid divides the components among as many solids as there are components.
func (a *assemblage) allSolid(there []int) (column, bool) {
	var n column
	if len(there) != a.nparts {
		return n, false
	}
	var matrix square
	var rhs column
	for i, j := range a.parts[:a.nparts] {
		rhs[i] = a.total[j]
		for c, k := range there {
			matrix[i][c] = a.formula(k, j)
		}
	}
	if !solve(&matrix, &rhs, a.nparts) {
		return n, false
	}
	for c, k := range there {
		if rhs[c] < 0 {
			return n, false
		}
		n[k] = rhs[c]
	}
	return n, true
}
