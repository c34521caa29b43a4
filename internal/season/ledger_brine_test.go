package season

import (
	"math"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// rock is what kg of the salt on the pile consist of.
func (l *ledger) rock(kg float64) (s sums, sludge float64) {
	return sums{nacl: kg * l.rockPure, water: kg * l.rockWet}, kg * (1 - l.rockPure - l.rockWet)
}

// freshDensity is kg/m3 of water at 46 F, by the same equation as the densities.
func freshDensity() float64 {
	rho, err := solution.Density(solution.Composition{}, float64(quantity.Fahrenheit(46)))
	if err != nil {
		panic(err) // the test's own fault
	}
	return rho
}

// strengthOf solves for the strength of brine of a density by halving.
func strengthOf(rho, kelvin float64) float64 {
	low, high := 0.0, 0.27
	for range 100 {
		middle := (low + high) / 2
		if there, err := solution.Density(solution.Brine(middle), kelvin); err == nil && there < rho {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// trueStrength is what a row's instrument, marked for 60 F, means. A glass that expands by
// 25e-6 a degree floats in a denser liquid at a mark when it is warm.
func trueStrength(e *journal.Entry) float64 {
	if e.NaCl != nil {
		return float64(*e.NaCl)
	}
	at := func(w float64) float64 {
		rho, _ := solution.Density(solution.Brine(w), solution.SixtyF)
		return rho
	}
	t, shown := float64(*e.Temp), *e.Reading
	glass := 1 + 25e-6*(t-solution.SixtyF)
	switch e.Scale {
	case "hydrometer":
		return strengthOf(at(shown/100)/glass, t)
	case "salometer":
		return strengthOf(at(shown/100*0.26395)/glass, t)
	case "sg":
		return strengthOf(at(0)*shown/glass, t)
	case "baume":
		return strengthOf(at(0)*145/(145-shown)/glass, t)
	case "weigh":
		return strengthOf(shown*float64(quantity.Pound/quantity.Mass(gallon)), t)
	}
	return math.NaN()
}
