package balance

import (
	"sync"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Known is salt brine with all its salt dissolved: what it weighs and when it freezes,
// worked out once for all who ask.
type Known struct {
	Strength    quantity.Strength // true
	Temperature quantity.Temperature
	Density     quantity.Density // at Temperature
	Freezing    solution.Freezing
}

// Know returns brine of a strength at a temperature. Errors: InputError for a strength
// that does not dissolve there, solution.ErrTemperature outside the model.
func Know(field string, s quantity.Strength, t quantity.Temperature) (Known, error) {
	k := Known{Strength: s, Temperature: t}
	var err error
	// The freezing is found in a twentieth of the time that saturation takes, and settles
	// nearly every case.
	k.Freezing, err = solution.Anchored().Freezing(solution.Brine(float64(s)))
	if err != nil || !(s >= 0) || k.DropsSalt() {
		full, err := Saturation(t)
		if err != nil {
			return Known{}, err
		}
		if !(s >= 0 && s <= full) {
			return Known{}, fault.Input(field, "no brine at %v is that strong; allowed: 0%% to %v (saturated)", t, full)
		}
	}
	rho, err := solution.Density(solution.Brine(float64(s)), float64(t))
	k.Density = quantity.Density(rho)
	return k, err
}

// KnowTarget is Know for a target, which is above 0.
func KnowTarget(target quantity.Strength, t quantity.Temperature) (Known, error) {
	if !(target > 0) {
		return Known{}, fault.Input(fault.FieldTarget, "no target; allowed: above 0%%")
	}
	return Know(fault.FieldTarget, target, t)
}

// At returns the same brine at another temperature, one that densities are known for.
func (k Known) At(t quantity.Temperature) Known {
	k.Temperature, k.Density = t, BrineDensity(k.Strength, t)
	return k
}

// First returns what first forms in the brine on cooling.
func (k Known) First() solution.Onset { return k.Freezing.First() }

// DropsSalt tells whether salt falls out at the brine's temperature or above. Brine warmer than the search for
// it begins (solution.SearchTop) may dissolve more than it holds there: Saturation tells.
func (k Known) DropsSalt() bool {
	salt := k.Freezing.Salt
	return salt.Found && (salt.Saturated || salt.Temperature >= float64(k.Temperature))
}

// AlreadySolid is by how much (K) a liquid has to be colder than where something forms before it is called part
// solid: a tenth of a degree F, the last digit that is printed.
const AlreadySolid = 0.05

// PartSolid tells whether ice or salt has formed at the brine's temperature, by more than
// rounding.
func (k Known) PartSolid() bool {
	first := k.First()
	return first.Found && float64(k.Temperature) < first.Temperature-AlreadySolid
}

// Gravity returns the specific gravity 60/60 F.
func (k Known) Gravity() quantity.SpecificGravity {
	return quantity.SpecificGravity(BrineDensity(k.Strength, quantity.Temperature(solution.SixtyF)) / waterAtSixty())
}

// waterAtSixty returns the density of fresh water at 60 F, to which gravities refer.
var waterAtSixty = sync.OnceValue(func() quantity.Density {
	return BrineDensity(0, quantity.Temperature(solution.SixtyF))
})

// Saturation returns the strength of saturated NaCl brine at a temperature.
func Saturation(t quantity.Temperature) (quantity.Strength, error) {
	w, _, err := solution.Anchored().Solubility(solution.NaCl, float64(t))
	return quantity.Strength(w), err
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
