package solution

import "fmt"

// Melting returns the mass of ice that one kg of a solution of chlorides melts at a
// temperature (K), until it is so dilute that it freezes there. It is 0 when the
// solution freezes undiluted, or drops salt when diluted: then ice and salt are
// stable. Errors: ErrComposition; ErrTemperature at 0 C and above, where ice melts by
// itself, and below Floor.
func (m *Model) Melting(c Composition, temperature float64) (float64, error) {
	if err := checkState(c, temperature); err != nil {
		return 0, err
	}
	if temperature > zeroCelsius-warmestIce {
		return 0, fmt.Errorf("%w: ice melts by itself at %.4g C", ErrTemperature, temperature-zeroCelsius)
	}
	s := &saturationAt{model: m, m: m.k.molality(c)}
	if s.m.chloride() == 0 {
		return 0, nil
	}
	// Melt water dilutes all salts alike, down to the scale that freezes here.
	scale := m.k.chlorideScale(&s.m, temperature)
	for salt := range s.m {
		s.m[salt] *= scale
	}
	if scale >= 1 || s.saltIndex(temperature) > 0 {
		return 0, nil
	}
	return c.Water() * (1/scale - 1), nil
}
