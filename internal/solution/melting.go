package solution

import (
	"fmt"
	"math"
)

// Melting returns the mass of ice that one kg of a solution of chlorides melts at
// a temperature (K) before it is so dilute that it freezes there: 0 when it would
// freeze undiluted. Errors: ErrComposition; ErrTemperature at 0 C and above, where
// ice melts by itself, and below Floor.
func Melting(c Composition, temperature float64) (float64, error) {
	if err := checkState(c, temperature); err != nil {
		return 0, err
	}
	if temperature >= zeroCelsius {
		return 0, fmt.Errorf("%w: ice melts by itself at %.4g C", ErrTemperature, temperature-zeroCelsius)
	}
	m := c.molality()
	if m.chloride() == 0 {
		return 0, nil
	}
	// Melt water dilutes all salts alike, to the scale that freezes here.
	return math.Max(0, c.Water()*(1/chlorideScale(&m, temperature)-1)), nil
}
