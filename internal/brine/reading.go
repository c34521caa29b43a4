package brine

import (
	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Sample is an instrument's reading in a sample of NaCl brine.
type Sample struct {
	Instrument  gauge.Instrument
	Reading     float64 // in the unit of the instrument's scale
	Temperature quantity.Temperature
}

// Shown is the reading as a quantity of its scale.
func (s Sample) Shown() quantity.Quantity { return s.Instrument.Quantity(s.Reading) }

// ReadingResult is what a reading means.
type ReadingResult struct {
	Sample Sample
	// Apparent is the strength that the reading stands for when the sample's
	// temperature is left out of account; True is what the brine holds.
	Apparent, True quantity.Strength
	Gravity        quantity.SpecificGravity // of the brine, 60/60 F
	Density        quantity.Density         // at the sample's temperature
	SaltPerVolume  quantity.Density         // at the sample's temperature
	Freezing       solution.Freezing
	// MarkDensity is the density at the calibration temperature for which the
	// mark was made (as weighed, where nothing floats).
	MarkDensity quantity.Density
	// Clamped is set when the reading lay just outside fresh water or saturated
	// brine, within what an instrument is read to, and was taken as that.
	Clamped bool
	// Solid is set when the brine would already hold ice or salt crystals at the
	// sample's temperature.
	Solid bool
}

// readingTolerance is the strength within which a reading beyond fresh water or
// saturation passes as that: a mark or two of a hydrometer.
const readingTolerance = 0.0025

// Reading returns the strength behind a reading. Errors: InputError for a
// reading or temperature that no liquid NaCl brine has.
func Reading(s Sample) (ReadingResult, error) {
	if err := fault.CheckTemperature(fault.FieldTemperature, s.Temperature); err != nil {
		return ReadingResult{}, err
	}
	if err := fault.CheckTemperature(fault.FieldCalibration, quantity.Temperature(s.Instrument.Calibration)); err != nil {
		return ReadingResult{}, err
	}
	r := ReadingResult{Sample: s}
	rho, ok := s.Instrument.Density(s.Reading, float64(s.Temperature))
	if !ok {
		return ReadingResult{}, s.outside()
	}
	var err error
	if r.True, r.Freezing, err = s.strength(rho); err != nil {
		return ReadingResult{}, err
	}
	r.Clamped = r.Freezing == solution.Freezing{}
	if r.Clamped {
		rho = float64(balance.BrineDensity(r.True, s.Temperature))
	}
	if err := r.describe(quantity.Density(rho)); err != nil {
		return ReadingResult{}, err
	}
	return r, nil
}

// strength turns a density into a strength, within fresh water and saturation, and says
// when that freezes; it does not where it took an end for what lies just beyond.
func (s Sample) strength(rho float64) (quantity.Strength, solution.Freezing, error) {
	t, end := float64(s.Temperature), solution.Freezing{}
	w, ok := solution.BrineStrength(rho, t)
	if !ok {
		fresh, err := solution.Density(solution.Composition{}, t)
		if err != nil {
			return 0, end, err
		}
		// About 7 kg/m3 go with one percent of salt.
		if short := (fresh - rho) / 700; short > 0 && short <= readingTolerance {
			return 0, end, nil
		}
		return 0, end, s.outside()
	}
	cold, err := solution.Anchored().Freezing(solution.Brine(w))
	if err != nil || !balance.DropsSalt(cold, s.Temperature) {
		return quantity.Strength(w), cold, err // all dissolved
	}
	full, err := balance.Saturation(s.Temperature)
	switch over := quantity.Strength(w) - full; {
	case err != nil:
		return 0, end, err
	case over > readingTolerance:
		return 0, end, s.outside()
	case over > 0:
		return full, end, nil
	}
	return quantity.Strength(w), cold, nil
}

// outside says between which readings a brine at the sample's temperature lies.
func (s Sample) outside() error {
	full, err := balance.Saturation(s.Temperature)
	if err != nil {
		return err
	}
	low, err := Expected(s.Instrument, 0, s.Temperature)
	if err != nil {
		return err
	}
	high, err := Expected(s.Instrument, full, s.Temperature)
	if err != nil {
		return err
	}
	return fault.Input(fault.FieldReading, "no salt brine at %v shows that; allowed: %v (fresh water) to %v (saturated)",
		s.Temperature, s.Instrument.Quantity(low), s.Instrument.Quantity(high))
}

// describe fills in what follows from the true strength and the density.
func (r *ReadingResult) describe(rho quantity.Density) error {
	s := r.Sample
	r.Density = rho
	r.SaltPerVolume = quantity.Density(float64(r.True) * float64(rho))
	const sixty = quantity.Temperature(solution.SixtyF)
	r.Gravity = quantity.SpecificGravity(balance.BrineDensity(r.True, sixty) / balance.BrineDensity(0, sixty))
	r.MarkDensity = quantity.Density(float64(rho))
	calibration := solution.SixtyF
	if i := s.Instrument; i.Floats() {
		calibration = i.Calibration
		at := gauge.Instrument{Scale: i.Scale, Calibration: calibration}
		if mark, ok := at.Density(s.Reading, calibration); ok {
			r.MarkDensity = quantity.Density(mark)
		}
	}
	r.Apparent = apparentStrength(float64(r.MarkDensity), calibration)
	if r.Clamped {
		var err error
		if r.Freezing, err = solution.Anchored().Freezing(solution.Brine(float64(r.True))); err != nil {
			return err
		}
	}
	r.Solid = balance.PartSolid(s.Temperature, r.Freezing.First()) && !r.Clamped
	return nil
}

// apparentStrength is the strength that a density stands for at the calibration
// temperature (K), or the end of the scale that it lies beyond.
func apparentStrength(mark, calibration float64) quantity.Strength {
	w, ok := solution.BrineStrength(mark, calibration)
	if top, err := solution.Density(solution.Brine(solution.BrineTop), calibration); !ok && err == nil && mark > top {
		return solution.BrineTop
	}
	return quantity.Strength(w)
}

// Expected returns what the instrument shows in NaCl brine of a true strength at
// a temperature. Errors: InputError for a strength or temperature of no brine,
// and for a glass marked for such a temperature.
func Expected(i gauge.Instrument, s quantity.Strength, t quantity.Temperature) (float64, error) {
	const floor, ceiling = quantity.Temperature(solution.DensityFloor), quantity.Temperature(solution.Ceiling)
	if !fault.Within(t, floor, ceiling) {
		return 0, fault.Input(fault.FieldTemperature, "outside what densities are known for; allowed: %v to %v", floor, ceiling)
	}
	if !(s >= 0 && s <= solution.MaxSolute) {
		return 0, fault.Input(fault.FieldStrength, "no brine is that strong; allowed: 0%% to %v", quantity.Strength(solution.MaxSolute))
	}
	rho := balance.BrineDensity(s, t)
	// Fresh or nearly saturated brine can stand off a strength scale at one end.
	reading, ok := i.Nearest(float64(rho), float64(t))
	if !ok {
		return 0, fault.Input(fault.FieldCalibration, "no glass is marked for that; allowed: %v to %v", floor, ceiling)
	}
	return reading, nil
}
