package solution

import (
	"errors"
	"fmt"
	"math"
	"sync"
)

// Model answers questions of saturation and freezing. It is immutable and may
// be shared. The two models differ in hydrohalite alone.
type Model struct {
	k           *coefficients
	hydrohalite []offset // nil: as published
}

// offset is what the anchor adds to log10 K at one temperature.
type offset struct {
	temperature float64 // K
	log10K      float64
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

func (k *coefficients) anchored() *Model {
	published, m := k.published(), k.published()
	for _, p := range k.anchor {
		t := zeroCelsius + p.celsius
		si, err := published.SaturationIndex(Hydrohalite, Brine(p.strength), t)
		if err != nil {
			panic(err) // the points lie inside the range of the model
		}
		m.hydrohalite = append(m.hydrohalite, offset{t, si})
	}
	return m
}

// anchorPoint is the mass fraction of NaCl at saturation.
type anchorPoint struct{ celsius, strength float64 }

// anchorPoints returns the solubility of NaCl from the eutectic to the transition of
// hydrohalite to halite, Salt Institute, "Chemical and physical properties"
// (trade association table).
func anchorPoints() [7]anchorPoint {
	return [7]anchorPoint{
		{-21.11, 0.2331},
		{-17.78, 0.2383},
		{-12.22, 0.2470},
		{-6.67, 0.2553},
		{-1.1, 0.2616},
		{0, 0.2629},
		{0.1, 0.2631},
	}
}

// logK returns log10 of the solubility product of s at t (K).
func (m *Model) logK(s Solid, t float64) float64 {
	if s == Hydrohalite {
		return m.k.logK(s, t) + m.anchor(t)
	}
	return m.k.logK(s, t)
}

// anchor interpolates linearly between the anchor points, and holds the first
// and the last value outside them.
func (m *Model) anchor(t float64) float64 {
	points := m.hydrohalite
	if len(points) == 0 {
		return 0
	}
	if t <= points[0].temperature {
		return points[0].log10K
	}
	for i := 1; i < len(points); i++ {
		if a, b := points[i-1], points[i]; t < b.temperature {
			share := (t - a.temperature) / (b.temperature - a.temperature)
			return a.log10K + share*(b.log10K-a.log10K)
		}
	}
	return points[len(points)-1].log10K
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
