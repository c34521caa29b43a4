package balance

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Masses are kg of what a liquid consists of.
type Masses struct{ Water, NaCl, KCl, CaCl2, MgCl2, Other float64 }

// MassesOf takes a mass of a liquid apart.
func MassesOf(l Liquid, mass quantity.Mass) Masses {
	c, m := l.Composition, float64(mass)
	return Masses{m * c.Water(), m * c.NaCl, m * c.KCl, m * c.CaCl2, m * c.MgCl2, m * c.Other}
}

// Plus returns the sum.
func (m Masses) Plus(o Masses) Masses {
	return Masses{m.Water + o.Water, m.NaCl + o.NaCl, m.KCl + o.KCl, m.CaCl2 + o.CaCl2, m.MgCl2 + o.MgCl2, m.Other + o.Other}
}

// Minus returns the difference.
func (m Masses) Minus(o Masses) Masses { return m.Plus(o.Times(-1)) }

// Times returns a multiple.
func (m Masses) Times(f float64) Masses {
	return Masses{m.Water * f, m.NaCl * f, m.KCl * f, m.CaCl2 * f, m.MgCl2 * f, m.Other * f}
}

// Total returns kg of all.
func (m Masses) Total() float64 { return m.Water + m.NaCl + m.KCl + m.CaCl2 + m.MgCl2 + m.Other }

// Composition returns the fractions of the total; none of nothing.
func (m Masses) Composition() solution.Composition { return m.fractions(m.Total()) }

// fractions divides by a total that is known.
func (m Masses) fractions(total float64) solution.Composition {
	if total == 0 {
		return solution.Composition{}
	}
	return solution.Composition{
		NaCl: m.NaCl / total, KCl: m.KCl / total, CaCl2: m.CaCl2 / total, MgCl2: m.MgCl2 / total, Other: m.Other / total,
	}
}

// Chloride returns kg of chloride ion.
func (m Masses) Chloride() float64 { return m.Total() * m.Composition().Chloride() }
