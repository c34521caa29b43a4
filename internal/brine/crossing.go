package brine

import (
	"cmp"
	"fmt"
	"math"

	"brineyard/internal/root"
)

// firstCrossing returns the smallest share, from 0 to 1, at which off passes zero, NaN
// when it does not. Ice points fall smoothly with a share, or rise where the last
// part dilutes: the steps find the first passage.
func firstCrossing(off func(float64) (float64, error)) (float64, error) {
	const steps = 40
	first, err := off(0)
	if err != nil || math.Abs(first) < 1e-6 {
		return 0, err
	}
	// The last two shares, and off at them: a hollow between steps is looked into.
	x0, y0 := math.NaN(), math.NaN()
	x1, y1 := 0.0, first
	for i := 1; i <= steps; i++ {
		x2 := float64(i) / steps
		y2, err := off(x2)
		if err != nil {
			return math.NaN(), err
		}
		if (y2 > 0) != (first > 0) {
			return narrow(off, x1, x2, y1, y2)
		}
		if math.Abs(y1) < math.Abs(y0) && math.Abs(y1) < math.Abs(y2) {
			bottom, err := hollow(off, x0, x2, first > 0)
			if err != nil {
				return math.NaN(), err
			}
			if y, err := off(bottom); err == nil && (y > 0) != (first > 0) {
				return narrow(off, x0, bottom, y0, y)
			}
		}
		x0, y0, x1, y1 = x1, y1, x2, y2
	}
	return math.NaN(), nil
}

// hollow finds where off is least (most, when it is below zero) between two shares.
func hollow(off func(float64) (float64, error), low, high float64, above bool) (float64, error) {
	var failed error
	x := root.Least(func(x float64) float64 {
		y, err := off(x)
		if err != nil {
			failed = err
		}
		if !above {
			y = -y
		}
		return y
	}, low, high, 40)
	return x, failed
}

// narrow finds where off crosses zero between low and high, given its values
// there. It is an error when it crosses nowhere.
func narrow(off func(float64) (float64, error), low, high, atLow, atHigh float64) (float64, error) {
	var failed error
	x, ok := root.Between(func(x float64) float64 {
		y, err := off(x)
		if err != nil {
			failed = err
		}
		return y
	}, low, high, atLow, atHigh, 1e-12)
	if !ok && failed == nil {
		failed = fmt.Errorf("nothing crosses zero from %g to %g", low, high)
	}
	return x, failed
}

// ends returns off at two places.
func ends(off func(float64) (float64, error), low, high float64) (atLow, atHigh float64, err error) {
	atLow, err = off(low)
	atHigh, noHigh := off(high)
	return atLow, atHigh, cmp.Or(err, noHigh)
}
