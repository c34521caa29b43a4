package solution

import (
	"errors"
	"fmt"
	"math"
)

// Equilibrium is the state that a solution reaches at a temperature: masses per kg
// of the original solution.
type Equilibrium struct {
	// LiquidFraction is the mass of the remaining liquid, 0 to 1.
	LiquidFraction float64
	// Liquid is its composition; the zero value without liquid.
	Liquid Composition
	// Solid is the mass of each solid.
	Solid [solidCount]float64
}

// Ice returns the mass of ice per kg of the solution.
func (e Equilibrium) Ice() float64 { return e.Solid[Ice] }

// Salt returns the mass of salt crystals per kg of the solution, with the water that
// is bound in them.
func (e Equilibrium) Salt() float64 {
	sum := 0.0
	for _, mass := range e.Solid[Halite:] {
		sum += mass
	}
	return sum
}

// ErrNotConverged is returned when the search for an equilibrium fails.
var ErrNotConverged = errors.New("no equilibrium found")

// componentCount counts water and the salts.
const componentCount = 1 + int(saltCount)

// moles holds mol of water and of each salt per kg of the original water.
type moles [componentCount]float64

// assemblage is the problem of equilibrium at one temperature: divide the components
// between a liquid y and solids n, none of them negative, so that the Gibbs energy is
// lowest. With mu the logarithms of the activities in the liquid, ln K those of the
// solubility products, and a the formula of a solid, the conditions are
//
//	mu >= lambda, complementary to y;  ln K >= a lambda, complementary to n;
//	y + sum of a n = total
//
// An interior-point method (after Wright, Primal-Dual Interior-Point Methods, 1997:
// one Newton step for every reduction of the complementarity gap) comes close to the
// solution from inside. A Newton method for the solids that are present then makes it
// exact.
type assemblage struct {
	total  moles
	parts  [componentCount]int // the components that are present
	nparts int
	solids [solidCount]Solid // the solids that can form
	n      int
	logK   column // natural logarithm
	at     parameters
}

// Equilibrium returns the ice, the salt crystals and the liquid that a solution
// becomes at a temperature (K). It converges from 40 to -70 C up to a mass fraction
// of 0.42, as far as random solutions have been tried. Other matter stays in the
// liquid. Errors: ErrComposition, ErrTemperature, ErrNotConverged.
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

// traces are mass fractions below which a salt counts as other matter: double
// precision cannot divide so little between solids and liquid. The larger ones are
// tried when the search fails with the first.
var traces = [...]float64{1e-10, 1e-8, 1e-7}

// setTracesAside moves salts below a trace to Other.
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

// assemblage states the problem for a solution at a temperature (K).
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

// solid returns the row of the k-th solid.
func (a *assemblage) solid(k int) *solidRow { return &a.at.k.solid[a.solids[k]] }

// formula returns mol of a component in a mol of the k-th solid.
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

// liquid returns the components that are not in the solids.
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

// hessian returns the derivatives of mu with the amounts in the liquid. Those with the
// salts are forward differences; those with water follow, because mu depends on ratios
// alone: sum of y dmu/dy = 0.
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

// result returns the masses of the solids, and of the liquid, from mol of the solids.
func (a *assemblage) result(c Composition, n *column) Equilibrium {
	e, k, water := Equilibrium{}, a.at.k, c.Water()
	for i, s := range a.solids[:a.n] {
		e.Solid[s] = water * n[i] * k.massOf(s)
	}
	y := a.liquid(n)
	for j := range y {
		// A component that is all in the solids leaves a rounding error here.
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
