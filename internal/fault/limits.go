package fault

import (
	"brineyard/internal/quantity"
)

// The temperatures at which brine in a tank or in a sample jar is considered.
var (
	Coldest = quantity.Celsius(-25)
	Hottest = quantity.Celsius(50)
)

// Within tells whether a temperature lies between two, ends included: 122 F comes out
// a digit above 50 C.
func Within(t, low, high quantity.Temperature) bool {
	const slack = 1e-9
	return t >= low-slack && t <= high+slack
}

// CheckTemperature refuses a temperature at which brine is not considered.
func CheckTemperature(field string, t quantity.Temperature) error {
	if !Within(t, Coldest, Hottest) {
		return Input(field, "outside what liquid brine is reckoned for; allowed: %v to %v", Coldest, Hottest)
	}
	return nil
}
