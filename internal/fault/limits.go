package fault

import (
	"brineyard/internal/quantity"
)

// Brine in a tank or in a sample jar is considered from -25 to 50 C.
const (
	Coldest = zeroCelsius - 25
	Hottest = zeroCelsius + 50
)

const zeroCelsius = quantity.Temperature(273.15)

// Within tells whether a temperature lies between two, ends included. 122 F comes out
// a digit above 50 C, so both ends have some slack.
func Within(t, low, high quantity.Temperature) bool {
	const slack = 1e-9
	return t >= low-slack && t <= high+slack
}

// CheckTemperature refuses a temperature at which brine is not considered.
func CheckTemperature(field string, t quantity.Temperature) error {
	return If(!Within(t, Coldest, Hottest), field, "outside the range for liquid brine; allowed: %v to %v", Coldest, Hottest)
}
