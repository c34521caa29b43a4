package main

import (
	"brineyard/internal/solution"
)

// zeroCelsius in K.
const zeroCelsius = 273.15

// The answers of the program to a row of a table.

func strengthOf(r row) float64 { w, _ := r.number("mass_pct"); return w / 100 }

func kelvinOf(r row) float64 { t, _ := r.number("temp_C"); return t + zeroCelsius }

func densityAt20(s solution.Salt) func(row) (float64, error) {
	return func(r row) (float64, error) { return solution.Density(solution.Pure(s, strengthOf(r)), 20+zeroCelsius) }
}

func density(s solution.Salt) func(row) (float64, error) {
	return func(r row) (float64, error) { return solution.Density(solution.Pure(s, strengthOf(r)), kelvinOf(r)) }
}

func heatOfWater(r row) (float64, error) {
	return solution.HeatCapacity(solution.Composition{}, kelvinOf(r))
}

// gravity15 is against water, both at 15 C.
func gravity15(r row) (float64, error) {
	const at = 15 + zeroCelsius
	brine, err := solution.Density(solution.Brine(strengthOf(r)), at)
	if err != nil {
		return 0, err
	}
	water, err := solution.WaterDensity(at)
	return brine / water, err
}

func icePoint(s solution.Salt) func(row) (float64, error) {
	return func(r row) (float64, error) {
		f, err := solution.Anchored().Freezing(solution.Pure(s, strengthOf(r)))
		return f.Ice.Temperature - zeroCelsius, err
	}
}

func firstSolid(r row) (float64, error) {
	f, err := solution.Anchored().Freezing(solution.Brine(strengthOf(r)))
	return f.First().Temperature - zeroCelsius, err
}

func lowering(s solution.Salt) func(row) (float64, error) {
	return func(r row) (float64, error) {
		m, _ := r.number("molality_mol_kg")
		salt := m * s.MolarMass() // kg per kg of water
		f, err := solution.Anchored().Freezing(solution.Pure(s, salt/(1+salt)))
		return zeroCelsius - f.Ice.Temperature, err
	}
}

// saturated is percent of NaCl at a temperature.
func saturated(r row) (float64, error) {
	t, _ := r.number("T_C")
	w, _, err := solution.Anchored().Solubility(solution.NaCl, t+zeroCelsius)
	return 100 * w, err
}

func perWater(s solution.Salt) func(row) (float64, error) {
	return func(r row) (float64, error) {
		w, _, err := solution.Anchored().Solubility(s, kelvinOf(r))
		return 100 * w / (1 - w), err
	}
}

func eutecticTemperature(s solution.Salt) func(row) (float64, error) {
	return func(row) (float64, error) {
		_, t, _, err := solution.Anchored().Eutectic(s)
		return t - zeroCelsius, err
	}
}

func eutecticStrength(s solution.Salt) func(row) (float64, error) {
	return func(row) (float64, error) {
		w, _, _, err := solution.Anchored().Eutectic(s)
		return 100 * w, err
	}
}

// onLine is the liquid of a row of the line of ice and hydrohalite.
func onLine(r row) solution.Composition {
	share, _ := r.number("X")
	percent, _ := r.number("S_percent")
	return solution.Composition{NaCl: share * percent / 100, CaCl2: (1 - share) * percent / 100}
}

func lineIce(r row) (float64, error) {
	f, err := solution.Anchored().Freezing(onLine(r))
	return f.Ice.Temperature - zeroCelsius, err
}

// lineSalt is where salt falls out, by the model or by the second opinion.
func lineSalt(second bool) func(row) (float64, error) {
	return func(r row) (float64, error) {
		m := solution.Anchored()
		if second {
			m, _ = m.SecondOpinion(onLine(r))
		}
		o, err := m.SaltOut(onLine(r))
		return o.Temperature - zeroCelsius, err
	}
}
