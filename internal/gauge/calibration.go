package gauge

import (
	"fmt"

	"brineyard/internal/quantity"
)

// glassFloor and glassCeiling are the temperatures for which hydrometers are marked: 50 to 100 F. Common
// practice, no source.
const glassFloor, glassCeiling = quantity.Temperature(283.15 - 1e-6), quantity.Temperature(310.93 + 1e-2)

// MarkedFor reports whether hydrometers are marked for a temperature.
func MarkedFor(t quantity.Temperature) bool { return t >= glassFloor && t <= glassCeiling }

// ParseCalibration reads the temperature for which a glass is marked. A bare number has the crew's unit;
// it is refused, with both of its meanings, where no glass is marked for that.
func ParseCalibration(sys quantity.System, text string) (t quantity.Temperature, bare bool, err error) {
	t, bare, err = quantity.Meant(quantity.ParseTemperature, sys, text)
	if err != nil || !bare || MarkedFor(t) {
		return t, bare, err
	}
	return t, bare, fmt.Errorf("no glass is marked for %v; allowed: with its unit, like %sF or %sC", t.In(sys), text, text)
}
