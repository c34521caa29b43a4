package balance

import (
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Saturation returns the strength of saturated NaCl brine.
func Saturation(t quantity.Temperature) (quantity.Strength, error) {
	w, _, err := solution.Anchored().Solubility(solution.NaCl, float64(t))
	return quantity.Strength(w), err
}

// DropsSalt tells whether salt falls out of a brine at a temperature or above.
func DropsSalt(cold solution.Freezing, t quantity.Temperature) bool {
	return cold.Salt.Found && cold.Salt.Temperature >= float64(t)
}

// CheckStrength refuses a strength that does not dissolve at temperature t.
func CheckStrength(field string, s quantity.Strength, t quantity.Temperature) error {
	// Where salt falls out of it is found in a twentieth of the time that saturation takes.
	cold, err := solution.Anchored().Freezing(solution.Brine(float64(s)))
	if err == nil && s >= 0 && !DropsSalt(cold, t) {
		return nil
	}
	full, err := Saturation(t)
	if err != nil {
		return err
	}
	if !(s >= 0 && s <= full) {
		return fault.Input(field, "no brine at %v is that strong; allowed: 0%% to %v (saturated)", t, full)
	}
	return nil
}

// BrineDensity is the density of NaCl brine whose strength and temperature were
// checked before.
func BrineDensity(s quantity.Strength, t quantity.Temperature) quantity.Density {
	rho, err := solution.Density(solution.Brine(float64(s)), float64(t))
	if err != nil {
		panic(err) // a check is missing; TestRefusalsAreOfTheInput draws requests against that
	}
	return quantity.Density(rho)
}

// CheckTarget refuses a target of nothing, or one that does not dissolve at temperature t.
func CheckTarget(target quantity.Strength, t quantity.Temperature) error {
	if !(target > 0) {
		return fault.Input(fault.FieldTarget, "no target; allowed: above 0%%")
	}
	return CheckStrength(fault.FieldTarget, target, t)
}

// FirstSolid returns what brine of a strength first forms on cooling.
func FirstSolid(s quantity.Strength) (solution.Onset, error) {
	f, err := solution.Anchored().Freezing(solution.Brine(float64(s)))
	return f.First(), err
}

// PartSolid tells a temperature below an onset by more than rounding.
func PartSolid(t quantity.Temperature, first solution.Onset) bool {
	return first.Found && float64(t) < first.Temperature-0.05
}
