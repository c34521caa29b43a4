package solution

import (
	"errors"
	"fmt"
	"math"
)

// Equilibrium is what a solution has become at a temperature, once it has had
// the time: masses per kg of the solution that there was.
type Equilibrium struct {
	// LiquidFraction is the mass of liquid that is left, 0 to 1.
	LiquidFraction float64
	// Liquid is its composition; the zero value when there is none.
	Liquid Composition
	// Solid is the mass of each solid.
	Solid [solidCount]float64
}

// Ice returns the mass of ice per kg of the solution.
func (e Equilibrium) Ice() float64 { return e.Solid[Ice] }

// Salt returns the mass of salt crystals, with the water bound in them, per kg
// of the solution.
func (e Equilibrium) Salt() float64 {
	sum := 0.0
	for _, mass := range e.Solid[Halite:] {
		sum += mass
	}
	return sum
}

// ErrNotConverged is returned when no equilibrium was found.
var ErrNotConverged = errors.New("no equilibrium found")

// componentCount counts water and the salts.
const componentCount = 1 + int(saltCount)

// moles holds mol of water and of each salt, per kg of water at the start.
type moles [componentCount]float64

// assemblage is the problem of equilibrium at one temperature: to share what
// there is between a liquid y and solids n, each at least zero, with the lowest
// Gibbs energy. With mu the logarithms of the activities in the liquid, ln K
// those of the activity products of the solids, and a the formula of a solid,
// the conditions are
//
//	mu >= lambda, complementary to y;  ln K >= a lambda, complementary to n;
//	y + sum of a n = total
//
// which an interior-point method (Wright, Primal-Dual Interior-Point Methods,
// 1997, in spirit: one Newton step for every reduction of the complementarity
// gap) approaches from inside, and a Newton solution for the solids that are
// then there makes exact.
type assemblage struct {
	total  moles
	parts  [componentCount]int // components present
	nparts int
	solids [solidCount]Solid // solids that can form
	n      int
	logK   column // natural logarithm
	at     parameters
}

// Equilibrium returns what a solution is at a temperature (K), once in
// equilibrium: ice, salts and liquid. It converges from 40 to -70 C up to a mass
// fraction of 0.32 (checked on random solutions), and mostly beyond. Dissolved matter other than the salts stays in the liquid.
// Errors: ErrComposition, ErrTemperature, ErrNotConverged.
func (m *Model) Equilibrium(c Composition, temperature float64) (Equilibrium, error) {
	if err := checkState(c, temperature); err != nil {
		return Equilibrium{}, err
	}
	for _, trace := range traces {
		rest := setTracesAside(c, trace)
		a := m.assemblage(rest, temperature)
		if n, ok := a.minimize(); ok {
			return a.result(rest, &n), nil
		}
	}
	return Equilibrium{}, fmt.Errorf("%w at %.4g C", ErrNotConverged, temperature-zeroCelsius)
}

// traces are the mass fractions below which a salt is counted as other matter: there
// is too little of it to share out in double precision. The larger ones are for the
// rare solution that is not to be had with the first.
var traces = [...]float64{1e-10, 1e-8, 1e-7}

func setTracesAside(c Composition, trace float64) Composition {
	w, other := c.salts(), c.Other
	for s := range w {
		if w[s] < trace {
			other += w[s]
			w[s] = 0
		}
	}
	return fromSalts(w, other)
}

// assemblage sets the problem up.
func (m *Model) assemblage(c Composition, temperature float64) *assemblage {
	mol := m.k.molality(c)
	a := &assemblage{at: m.k.parametersAt(temperature, &mol)}
	a.total[0] = 1 / m.k.water
	a.nparts = 1
	for s := range mol {
		if mol[s] > 0 {
			a.total[1+s] = mol[s]
			a.parts[a.nparts] = 1 + s
			a.nparts++
		}
	}
	for k := range solidCount {
		if salt, ok := k.Salt(); ok && mol[salt] == 0 {
			continue
		}
		a.solids[a.n] = k
		a.logK[a.n] = math.Ln10 * m.logK(k, temperature)
		a.n++
	}
	return a
}

// solid returns what the k-th solid consists of.
func (a *assemblage) solid(k int) *solidRow { return &a.at.k.solid[a.solids[k]] }

// formula returns how much of a component is in the k-th solid.
func (a *assemblage) formula(k, component int) float64 {
	d := a.solid(k)
	switch component {
	case 0:
		return d.water
	case 1 + int(d.salt):
		return 1
	}
	return 0
}

// liquid returns what the solids leave.
func (a *assemblage) liquid(n *column) moles {
	y := a.total
	for k := range a.n {
		d := a.solid(k)
		y[0] -= d.water * n[k]
		if d.salt != AllSalts {
			y[1+d.salt] -= n[k]
		}
	}
	return y
}

// potentials returns mu: the logarithms of the activities of water and of the
// salts in the liquid.
func (a *assemblage) potentials(y *moles) moles {
	var m molality
	for s := range m {
		m[s] = y[1+s] / (y[0] * a.at.k.water)
	}
	act := a.at.activity(&m)
	mu := moles{act.LnWater}
	for s := range m {
		if m[s] > 0 {
			mu[1+s] = act.LnCation[s] + a.at.k.salt[s].charge*act.LnChloride
		}
	}
	return mu
}

// hessian returns the derivatives of mu with the amounts in the liquid, by
// forward differences for the salts; those with water follow, since mu depends
// on ratios alone: sum of y dmu/dy = 0.
func (a *assemblage) hessian(y, mu *moles) (h [componentCount][componentCount]float64) {
	const relative = 1e-7
	for _, j := range a.parts[1:a.nparts] {
		step := relative * y[j]
		moved := *y
		moved[j] += step
		there := a.potentials(&moved)
		for _, i := range a.parts[:a.nparts] {
			h[i][j] = (there[i] - mu[i]) / step
			h[i][0] -= h[i][j] * y[j] / y[0]
		}
	}
	return h
}

// result turns moles of solids into masses, and the rest into the liquid.
func (a *assemblage) result(c Composition, n *column) Equilibrium {
	e, k, water := Equilibrium{}, a.at.k, c.Water()
	for i, s := range a.solids[:a.n] {
		e.Solid[s] = water * n[i] * k.massOf(s)
	}
	y := a.liquid(n)
	for j := range y {
		// What the solids leave of a component that is all in them is rounding.
		if y[j] < 1e-13*a.total[j] {
			y[j] = 0
		}
	}
	var w [saltCount]float64
	sum := water * y[0] * k.water
	for s := range w {
		w[s] = water * y[1+s] * k.salt[s].molarMass
		sum += w[s]
	}
	sum += c.Other
	e.LiquidFraction = sum
	if sum > 0 {
		for s := range w {
			w[s] /= sum
		}
		e.Liquid = fromSalts(w, c.Other/sum)
	}
	return e
}
