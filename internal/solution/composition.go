package solution

import (
	"errors"
	"fmt"
	"math"
)

// Salt is one of the four chlorides that the model knows.
type Salt int

// The salts, in the order in which the parameter tables list their cations.
const (
	NaCl Salt = iota
	KCl
	CaCl2
	MgCl2
	saltCount
)

// String returns the formula of the salt.
func (s Salt) String() string { return standard.salt[s].formula }

// MolarMass returns the molar mass of the anhydrous salt in kg/mol.
func (s Salt) MolarMass() float64 { return standard.salt[s].molarMass }

// MolarMassWater is the molar mass of water in kg/mol.
const MolarMassWater = 18.01528e-3

// saltRow is what a salt consists of.
type saltRow struct {
	formula   string
	molarMass float64 // kg/mol
	charge    float64 // of the cation, and the number of chloride ions
}

// Atomic masses: Na 22.98977, K 39.0983, Ca 40.078, Mg 24.305, Cl 35.453
// (IUPAC, rounded).
func saltTable() [saltCount]saltRow {
	return [saltCount]saltRow{
		NaCl:  {"NaCl", 58.44277e-3, 1},
		KCl:   {"KCl", 74.5513e-3, 1},
		CaCl2: {"CaCl2", 110.984e-3, 2},
		MgCl2: {"MgCl2", 95.211e-3, 2},
	}
}

// Composition is a solution as the mass fraction of each solute; the rest is
// water. Other is dissolved matter of unknown chemistry: the activities leave it
// out, and in density and heat capacity it counts as NaCl.
type Composition struct {
	NaCl, KCl, CaCl2, MgCl2, Other float64
}

// MaxSolute is the largest mass fraction of all salts together that a composition may
// have. The model has been checked against reference values up to CheckedTo.
const MaxSolute = 0.5

// ErrComposition is returned for mass fractions that no solution can have.
var ErrComposition = errors.New("not a solution")

// Brine returns pure sodium chloride brine of the given strength (mass
// fraction).
func Brine(strength float64) Composition { return Composition{NaCl: strength} }

// Pure returns a solution of one salt of the given strength (mass fraction).
func Pure(s Salt, strength float64) Composition {
	var w [saltCount]float64
	w[s] = strength
	return fromSalts(w, 0)
}

// Fraction returns the mass fraction of one salt.
func (c Composition) Fraction(s Salt) float64 { return c.salts()[s] }

// Solute returns the mass fraction of everything dissolved.
func (c Composition) Solute() float64 { return c.NaCl + c.KCl + c.CaCl2 + c.MgCl2 + c.Other }

// Water returns the mass fraction of water.
func (c Composition) Water() float64 { return 1 - c.Solute() }

// Chloride returns the mass fraction of chloride ion.
func (c Composition) Chloride() float64 { return standard.chlorideIn(c) }

func (k *coefficients) chlorideIn(c Composition) float64 {
	sum := 0.0
	for s, w := range c.salts() {
		sum += w / k.salt[s].molarMass * k.salt[s].charge * k.chloride
	}
	return sum
}

// Check returns ErrComposition, with the reason, unless every mass fraction is at
// least 0, the salts are at most MaxSolute together, and everything is at most 1.
func (c Composition) Check() error {
	for _, w := range [...]float64{c.NaCl, c.KCl, c.CaCl2, c.MgCl2, c.Other} {
		if !(w >= 0) {
			return fmt.Errorf("%w: a share of %g", ErrComposition, w)
		}
	}
	if sum := c.Solute() - c.Other; !(sum <= MaxSolute+1e-12) {
		return fmt.Errorf("%w: %.4g %% of salts, at most %g %%", ErrComposition, 100*sum, 100*MaxSolute)
	}
	if sum := c.Solute(); !(sum <= 1+1e-12) {
		return fmt.Errorf("%w: %.4g %% dissolved in all", ErrComposition, 100*sum)
	}
	return nil
}

func (c Composition) salts() [saltCount]float64 {
	return [saltCount]float64{NaCl: c.NaCl, KCl: c.KCl, CaCl2: c.CaCl2, MgCl2: c.MgCl2}
}

func fromSalts(w [saltCount]float64, other float64) Composition {
	return Composition{NaCl: w[NaCl], KCl: w[KCl], CaCl2: w[CaCl2], MgCl2: w[MgCl2], Other: other}
}

// molality holds mol of each cation (equally: of each salt) per kg of water.
type molality [saltCount]float64

func (k *coefficients) molality(c Composition) molality {
	var m molality
	water := c.Water()
	for s, w := range c.salts() {
		if w > 0 {
			m[s] = w / (k.salt[s].molarMass * water)
		}
	}
	return m
}

// chloride returns mol of chloride ion per kg of water.
func (m *molality) chloride() float64 { return m[NaCl] + m[KCl] + 2*(m[CaCl2]+m[MgCl2]) }

// ionicStrength returns half the sum of m z^2 over all ions.
func (m *molality) ionicStrength() float64 { return m[NaCl] + m[KCl] + 3*(m[CaCl2]+m[MgCl2]) }

// dissolved returns the sum of m over all ions.
func (m *molality) dissolved() float64 { return 2*(m[NaCl]+m[KCl]) + 3*(m[CaCl2]+m[MgCl2]) }

// Molality returns mol of the salt per kg of water; infinity without water.
func (c Composition) Molality(s Salt) float64 {
	if c.Water() <= 0 {
		return math.Inf(1)
	}
	return standard.molality(c)[s]
}

// Ions returns the number of ions in a formula unit of the salt.
func (s Salt) Ions() float64 { return 1 + standard.salt[s].charge }
