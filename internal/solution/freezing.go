package solution

import (
	"fmt"
	"math"

	"brineyard/internal/root"
)

// Onset is the temperature (K) at which a solid first forms on cooling.
type Onset struct {
	Temperature float64
	Solid       Solid
	// Found is false when nothing forms down to Floor.
	Found bool
	// Saturated is true when the solution is saturated with the solid at SearchTop
	// already, where the search begins; Temperature is then SearchTop.
	Saturated bool
}

// Freezing tells which solids form on cooling, and where.
type Freezing struct {
	Ice  Onset // the ice point: water activity equal to that of ice
	Salt Onset // the first salt solid, if no ice formed before
}

// SearchTop is the temperature (K) at which cooling begins.
const SearchTop = zeroCelsius + 40

// First returns the onset that comes first on cooling.
func (f Freezing) First() Onset {
	if f.Salt.Found && (!f.Ice.Found || f.Salt.Temperature > f.Ice.Temperature) {
		return f.Salt
	}
	return f.Ice
}

const (
	// onsetTolerance is how exactly an onset is found, in K.
	onsetTolerance = 1e-6
	// scanStep is the step in K of the descent that brackets an onset. The
	// highest saturation index is a smooth curve over tens of kelvin, with kinks
	// where one hydrate follows another. A step of 5 K misses no onset: the tests
	// compare it with steps of 0.1 K.
	scanStep = 5.0
	// iceTop is where the search for ice begins: no solution freezes above 0 C.
	iceTop = zeroCelsius + 1
)

// Freezing returns the ice point and the first salt solid of a solution, cooled
// from SearchTop to Floor. The fit ends at FitCeiling (25 C): an onset above it
// is an extrapolation. The published model meets reference values to 0.0035 C.
// Error: ErrComposition.
func (m *Model) Freezing(c Composition) (Freezing, error) {
	if err := c.Check(); err != nil {
		return Freezing{}, err
	}
	s := &saturationAt{model: m, m: m.k.molality(c)}
	ice, salt := guesses(c)
	return Freezing{Ice: search(s.ice, iceTop, ice), Salt: s.saltOut(salt)}, nil
}

// SaltOut returns the first salt solid alone, as Freezing does.
// Error: ErrComposition.
func (m *Model) SaltOut(c Composition) (Onset, error) {
	if err := c.Check(); err != nil {
		return Onset{}, err
	}
	s := &saturationAt{model: m, m: m.k.molality(c)}
	_, salt := guesses(c)
	return s.saltOut(salt), nil
}

// saltOut looks for the first salt solid.
func (s *saturationAt) saltOut(around guess) Onset {
	if s.m.chloride() == 0 {
		return Onset{}
	}
	o := search(s.saltIndex, SearchTop, around)
	if o.Found {
		_, o.Solid = s.salt(o.Temperature)
	}
	return o
}

// search looks around a guess first, if there is one, and otherwise descends from the
// top. Guesses are given only for plain brine: its index has one root, so a root near
// the guess is the first.
func search(index func(float64) float64, top float64, guess guess) Onset {
	if guess.around > 0 {
		above, below := math.Min(guess.at+guess.around, top), guess.at-guess.around
		if indexAbove := index(above); indexAbove < 0 {
			if t, ok := root.Between(index, below, above, index(below), indexAbove, onsetTolerance); ok {
				return Onset{Temperature: t, Found: true}
			}
		}
	}
	return descend(index, top)
}

// descend steps down from top until a saturation index reaches zero, and finds the
// root in the last step.
func descend(index func(float64) float64, top float64) Onset {
	above := top
	indexAbove := index(above)
	if indexAbove >= 0 {
		return Onset{Temperature: above, Found: true, Saturated: true}
	}
	for above > Floor {
		below := math.Max(above-scanStep, Floor)
		indexBelow := index(below)
		if t, ok := root.Between(index, below, above, indexBelow, indexAbove, onsetTolerance); ok {
			return Onset{Temperature: t, Found: true}
		}
		above, indexAbove = below, indexBelow
	}
	return Onset{}
}

// Solubility returns the strength (mass fraction) of the saturated solution of a salt
// at a temperature (K), and the solid that saturates it: the stable one, which has the
// lowest solubility. Below the eutectic it is the metastable continuation. Errors:
// ErrTemperature; ErrComposition when more than MaxSolute dissolves.
func (m *Model) Solubility(salt Salt, temperature float64) (strength float64, solid Solid, err error) {
	if err := checkState(Composition{}, temperature); err != nil {
		return 0, 0, err
	}
	some := m.k.molality(Pure(salt, MaxSolute))
	p := m.k.parametersAt(temperature, &some) // they do not depend on the strength
	at := func(w float64) (float64, Solid) {
		s := saturationAt{model: m, m: m.k.molality(Pure(salt, w))}
		return s.saltWith(&p)
	}
	index := func(w float64) float64 { si, _ := at(w); return si }
	low, high, ok := firstRise(index)
	if ok {
		strength, ok = root.Between(index, low, high, index(low), index(high), 1e-10)
	}
	if !ok {
		return 0, 0, fmt.Errorf("%w: %s dissolves beyond %g %% at %.4g C",
			ErrComposition, salt, 100*MaxSolute, temperature-zeroCelsius)
	}
	_, solid = at(strength)
	return strength, solid, nil
}

// firstRise brackets the lowest strength at which a saturation index reaches zero. The
// index of a hydrate can fall again beyond its first root, where the solution runs
// short of water. So the search steps up, and looks for the top of every hump between
// steps.
func firstRise(index func(float64) float64) (low, high float64, ok bool) {
	const step = 0.01
	before, beforeIndex := 1e-6, index(1e-6)
	here, hereIndex := step, index(step)
	if beforeIndex >= 0 {
		return 0, 0, false
	}
	for hereIndex < 0 && here < MaxSolute {
		next := math.Min(here+step, MaxSolute)
		nextIndex := index(next)
		if hereIndex > beforeIndex && hereIndex > nextIndex {
			if top := peak(index, before, next); index(top) >= 0 {
				return before, top, true
			}
		}
		before, beforeIndex = here, hereIndex
		here, hereIndex = next, nextIndex
	}
	return before, here, hereIndex >= 0
}

// peak returns the highest point of a hump.
func peak(f func(float64) float64, low, high float64) float64 {
	return root.Least(func(x float64) float64 { return -f(x) }, low, high, 30)
}

// Eutectic returns the strength (mass fraction) and temperature (K) at which
// ice and the salt's solid form together, and that solid. Error: ErrTemperature
// when they do not meet above Floor.
func (m *Model) Eutectic(salt Salt) (strength, temperature float64, solid Solid, err error) {
	// The saturation index of ice in the solution that is saturated with the salt.
	index := func(t float64) float64 {
		w, _, err := m.Solubility(salt, t)
		if err != nil {
			return math.NaN()
		}
		s := saturationAt{model: m, m: m.k.molality(Pure(salt, w))}
		return s.ice(t)
	}
	temperature, ok := root.Between(index, Floor, zeroCelsius, index(Floor), index(zeroCelsius), onsetTolerance)
	if !ok {
		return 0, 0, 0, fmt.Errorf("%w: ice and %s do not meet", ErrTemperature, salt)
	}
	strength, solid, err = m.Solubility(salt, temperature)
	return strength, temperature, solid, err
}
