package solution

import (
	"errors"
	"fmt"
	"math"
	"sync"
)

// Model answers questions of saturation and freezing. It is immutable and may
// be shared. The models differ in hydrohalite alone.
type Model struct {
	k *coefficients
	// anchor moves hydrohalite to its published solubility in water; nil: as the authors of the
	// parameters have it.
	anchor *anchorCurve
	// shift is added to log10 K of hydrohalite, the same at every temperature.
	shift float64
}

// ErrTemperature is returned for a temperature outside the range that a function
// names, and by Eutectic.
var ErrTemperature = errors.New("temperature outside the model")

// published returns the model as its authors give it. It puts the eutectic of NaCl and
// ice at 23.1 %.
func (k *coefficients) published() *Model { return &Model{k: k} }

// Anchored returns the model with hydrohalite anchored to the published
// solubility of NaCl, which puts the eutectic at 23.26 %; the trade says 23.3 %.
// Every answer to a yard comes from this model.
var Anchored = sync.OnceValue(standard.anchored)

func (k *coefficients) anchored() *Model { return &Model{k: k, anchor: k.anchorCurve()} }

// logK returns log10 of the solubility product of s at t (K).
func (m *Model) logK(s Solid, t float64) float64 {
	if s == Hydrohalite {
		return m.k.logK(s, t) + m.anchor.at(t) + m.shift
	}
	return m.k.logK(s, t)
}

// SaturationIndex returns log10 of the ratio of a solid's activity product in
// the solution to its solubility product at the temperature (K): 0 at
// saturation, above 0 the solid falls out. It is minus infinity where the
// solid's salt is absent. Reference values are met to 1.1e-5 from -45 to 25 C.
// Errors: ErrComposition, ErrTemperature.
func (m *Model) SaturationIndex(s Solid, c Composition, temperature float64) (float64, error) {
	a, err := m.k.activityAt(c, temperature)
	if err != nil {
		return 0, err
	}
	return m.k.logProduct(s, &a) - m.logK(s, temperature), nil
}

// checkState returns an error for what no solution can be, and outside Floor to
// Ceiling.
func checkState(c Composition, temperature float64) error { return checkFrom(Floor, c, temperature) }

// checkFrom is checkState for a fit that begins at floor (K).
func checkFrom(floor float64, c Composition, temperature float64) error {
	if err := c.Check(); err != nil {
		return err
	}
	// An end in C that was converted to K may miss the constant by a digit.
	const slack = 1e-9
	if !(temperature >= floor-slack && temperature <= Ceiling+slack) {
		return fmt.Errorf("%w: %.4g C, from %.4g to %.4g C",
			ErrTemperature, temperature-zeroCelsius, floor-zeroCelsius, Ceiling-zeroCelsius)
	}
	return nil
}

// saturationAt is the state of one composition along a temperature scan.
type saturationAt struct {
	model *Model
	m     molality
}

// ice returns the saturation index of ice at t (K).
func (s *saturationAt) ice(t float64) float64 {
	k := s.model.k
	p := k.parametersAt(t, &s.m)
	a := p.activity(&s.m)
	return k.logProduct(Ice, &a) - k.logK(Ice, t)
}

// saltIndex returns the highest saturation index of any salt solid at t (K).
func (s *saturationAt) saltIndex(t float64) float64 { si, _ := s.salt(t); return si }

// salt returns the highest saturation index of any salt solid at t (K), and the
// solid; minus infinity when the solution holds no salt.
func (s *saturationAt) salt(t float64) (float64, Solid) {
	p := s.model.k.parametersAt(t, &s.m)
	return s.saltWith(&p)
}

// saltWith is salt with parameters that were evaluated before.
func (s *saturationAt) saltWith(p *parameters) (float64, Solid) {
	a := p.activity(&s.m)
	highest, solid := math.Inf(-1), Halite
	for x := Halite; x < solidCount; x++ {
		if s.m[p.k.solid[x].salt] == 0 {
			continue
		}
		if si := p.k.logProduct(x, &a) - s.model.logK(x, p.temperature); si > highest {
			highest, solid = si, x
		}
	}
	return highest, solid
}
