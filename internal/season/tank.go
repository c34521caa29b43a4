package season

import (
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// Tank is what the entries so far make of a tank.
type Tank struct {
	Name   string
	Mass   float64 // kg
	Liquid balance.Liquid
	// Known is set once an entry has said what was in it; until then it is taken as
	// empty.
	Known   bool
	Reading *Seen
	First   time.Time // entry about it; zero for none
	// Since the last cleaning, or the first entry:
	Cleaned    time.Time // zero when never
	Made       quantity.Volume
	Insolubles quantity.Mass // of the salt put in
	Cleanings  []Cleaning
}

// Seen is a reading of an instrument beside what the entries say.
type Seen struct {
	Entry    int
	Time     time.Time
	True     quantity.Strength
	Expected quantity.Strength // by the entries, at that moment
	// Comparable is unset where the entries did not say what was in the tank, or it was no
	// plain brine.
	Comparable bool
}

// driftAllowed is what a reading may be off before it is flagged: two marks of a
// hydrometer that is read to a tenth of a percent. Common practice, no source.
const driftAllowed = 0.002

// Drifted reports whether the reading contradicts the entries.
func (s *Seen) Drifted() bool {
	d := s.True - s.Expected
	return s.Comparable && (d > driftAllowed || d < -driftAllowed)
}

// Volume returns what is in the tank at a temperature; 0 for none.
func (t *Tank) Volume(at quantity.Temperature) quantity.Volume {
	if t.Mass <= 0 {
		return 0
	}
	rho, err := t.Liquid.Density(at)
	if err != nil {
		return 0
	}
	return quantity.Mass(t.Mass).Volume(rho)
}

// Masses returns what it consists of.
func (t *Tank) Masses() Masses { return massesOf(t.Liquid, t.Mass) }

// add mixes a mass of a liquid into the tank.
func (t *Tank) add(l balance.Liquid, mass float64) {
	switch {
	case mass == 0:
	case t.Mass == 0:
		t.Liquid, t.Mass = l, mass
	default:
		v := balance.Vessel{Liquid: t.Liquid, Mass: quantity.Mass(t.Mass)}
		v.Add(l, quantity.Mass(mass))
		t.Liquid, t.Mass = v.Liquid, float64(v.Mass)
	}
	t.Known = true
}

// saltBrine is the name of what a yard makes.
const saltBrine = balance.BrineName

// take removes a share of what is in the tank.
func (t *Tank) take(mass float64) {
	if t.Mass -= mass; t.Mass < 1e-9 {
		t.Mass = 0
	}
}

// water is what is run in; it does not change what a liquid is called.
var water = balance.Liquid{}

// dissolved is the salt and water of rock salt, as a liquid of its own. What does not
// dissolve stays behind as sludge.
func dissolved(salt quantity.Mass, rock yard.RockSalt) (balance.Liquid, float64) {
	nacl := float64(salt) * rock.SodiumChloride()
	mass := nacl + float64(salt.Times(rock.Moisture))
	if mass == 0 {
		return water, 0
	}
	return balance.Liquid{Name: saltBrine, Composition: solution.Brine(nacl / mass)}, mass
}

// liquidOf is what a row says a liquid is: its composition, else its name.
func (s *Shop) liquidOf(e *journal.Entry) (balance.Liquid, bool) {
	if e.NaCl == nil && e.KCl == nil && e.CaCl2 == nil && e.MgCl2 == nil {
		l, ok := s.Liquids[e.Liquid]
		return l, ok
	}
	share := func(p *quantity.Strength) float64 {
		if p == nil {
			return 0
		}
		return float64(*p)
	}
	l := balance.Liquid{Name: e.Liquid, Composition: solution.Composition{
		NaCl: share(e.NaCl), KCl: share(e.KCl), CaCl2: share(e.CaCl2), MgCl2: share(e.MgCl2),
	}}
	if _, plain := l.Strength(); plain && l.Name == "" {
		l.Name = saltBrine
	}
	return l, l.Composition.Check() == nil
}
