package season

import (
	"brineyard/internal/balance"
	"brineyard/internal/solution"
)

// Masses are kg of what a liquid consists of.
type Masses struct{ Water, NaCl, KCl, CaCl2, MgCl2, Other float64 }

// massesOf takes a mass of a liquid apart.
func massesOf(l balance.Liquid, mass float64) Masses {
	c := l.Composition
	return Masses{mass * c.Water(), mass * c.NaCl, mass * c.KCl, mass * c.CaCl2, mass * c.MgCl2, mass * c.Other}
}

// Plus returns the sum.
func (m Masses) Plus(o Masses) Masses {
	return Masses{m.Water + o.Water, m.NaCl + o.NaCl, m.KCl + o.KCl, m.CaCl2 + o.CaCl2, m.MgCl2 + o.MgCl2, m.Other + o.Other}
}

// Times returns a multiple.
func (m Masses) Times(f float64) Masses {
	return Masses{m.Water * f, m.NaCl * f, m.KCl * f, m.CaCl2 * f, m.MgCl2 * f, m.Other * f}
}

// Total returns kg of all.
func (m Masses) Total() float64 { return m.Water + m.NaCl + m.KCl + m.CaCl2 + m.MgCl2 + m.Other }

// Chloride returns kg of chloride ion.
func (m Masses) Chloride() float64 {
	total := m.Total()
	if total == 0 {
		return 0
	}
	c := solution.Composition{NaCl: m.NaCl / total, KCl: m.KCl / total, CaCl2: m.CaCl2 / total, MgCl2: m.MgCl2 / total}
	return total * c.Chloride()
}
