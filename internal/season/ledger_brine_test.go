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

// halfRange is by how much a strength may be off that a row's instrument gave, 95 times in 100: the mark, read
// to the nearest of a common glass, and the thermometer, read to the nearest 2 F, spread evenly. The tail of
// their sum beyond x is (a + b - x)^2 / (8 a b).
func halfRange(e *journal.Entry) float64 {
	division, known := map[string]float64{"hydrometer": 0.5, "sg": 0.005, "salometer": 1, "baume": 0.5, "weigh": 0.02}[e.Scale]
	if !known || e.Temp == nil || e.NaCl != nil {
		return 0
	}
	off := func(reading, kelvin float64) float64 {
		beside := *e
		beside.Reading, beside.Temp = some(*e.Reading+reading), some(*e.Temp+quantity.Temperature(kelvin))
		return trueStrength(&beside)
	}
	a := math.Abs(off(division/20, 0)-off(-division/20, 0)) * 5
	b := math.Abs(off(0, 0.1)-off(0, -0.1)) * 5 * (5.0 / 9)
	a, b = max(a, b), min(a, b)
	if b < 1e-3*a || 0.95*a <= a-b {
		return 0.95 * a
	}
	return a + b - math.Sqrt(0.2*a*b)
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
