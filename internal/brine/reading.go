package brine

import (
	"cmp"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/gauge"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/sure"
)

// Sample is an instrument's reading in a sample of NaCl brine.
type Sample struct {
	Instrument  gauge.Instrument
	Thermometer gauge.Thermometer
	Reading     float64 // in the unit of the instrument's scale
	Temperature quantity.Temperature
	// More are further samples of the same tank, read with the same instruments.
	More []Shown
}

// Shown is what instrument and thermometer showed in a sample.
type Shown struct {
	Reading     float64
	Temperature quantity.Temperature
}

// Shown is the reading as a quantity of its scale.
func (s Sample) Shown() quantity.Quantity { return s.Instrument.Quantity(s.Reading) }

// ReadingResult is what a reading means.
type ReadingResult struct {
	balance.Known // the brine, at the sample's temperature
	Sample        Sample
	// Apparent is the strength that the reading stands for when the sample's
	// temperature is left out of account; True is the strength of the brine.
	Apparent, True quantity.Strength
	SaltPerVolume  quantity.Density
	// MarkDensity is the density at the calibration temperature for which the
	// mark was made (as weighed, where nothing floats).
	MarkDensity quantity.Density
	// Clamped is set when the reading lay just beyond fresh water or saturated brine,
	// by no more than a reading error, and was taken as that.
	Clamped bool
	// Solid is set when the brine would already hold ice or salt crystals at the
	// sample's temperature.
	Solid bool
	// Sure is what makes True unsure, in mass fraction; Range holds the truth 95 times in 100.
	// Half is the half-width of that where nothing cuts it.
	Sure  sure.Budget
	Range Span[quantity.Strength]
	Half  quantity.Strength
	// Singles are the samples one by one, where there are several: True is their mean.
	Singles []ReadingResult
}

// readingTolerance is how far beyond fresh water or saturation a reading is taken as that:
// a mark or two of a hydrometer. Common practice, no source.
const readingTolerance = 0.0025

// Reading returns the brine behind a reading, or behind the mean of several samples. Errors: InputError
// for a reading or a temperature that no liquid NaCl brine has, and for samples further apart than
// reading and mixing explain.
func Reading(s Sample) (ReadingResult, error) {
	read := single
	if len(s.More) > 0 {
		read = several
	}
	r, err := read(s)
	if err != nil {
		return ReadingResult{}, err
	}
	r.Half = quantity.Strength(r.Sure.Half())
	r.Range = r.spread()
	return r, nil
}

// single is the brine behind one reading.
func single(s Sample) (ReadingResult, error) {
	if err := cmp.Or(
		fault.CheckTemperature(fault.FieldTemperature, s.Temperature),
		fault.CheckTemperature(fault.FieldCalibration, quantity.Temperature(s.Instrument.Calibration)),
	); err != nil {
		return ReadingResult{}, err
	}
	mark, marked := s.Instrument.Mark(s.Reading)
	rho, afloat := s.Instrument.Sample(mark, float64(s.Temperature))
	if !marked || !afloat {
		return ReadingResult{}, s.outside()
	}
	r := ReadingResult{Sample: s}
	var err error
	if r.Known, r.Clamped, err = s.known(rho); err != nil {
		return ReadingResult{}, err
	}
	r.describe(mark)
	reading := s.Reading
	if r.Clamped { // the mark that the brine would show
		if reading, err = shown(s.Instrument, r.Density, s.Temperature); err != nil {
			return ReadingResult{}, err
		}
	}
	r.Sure = surenessAt(s.Instrument, s.Thermometer, reading, r.True, s.Temperature, r.Density)
	return r, nil
}

// spread is the range of a reading's strength: no less than water holds, nor more than dissolves.
func (r ReadingResult) spread() Span[quantity.Strength] {
	most := quantity.Strength(solution.MaxSolute)
	if r.Clamped && r.True > 0 {
		most = r.True
	}
	return around(r.True, r.Half, 0, most)
}

// known turns a density (kg/m3) into brine between fresh water and saturation. The second
// result is true where the density lies just beyond one of these ends.
func (s Sample) known(rho float64) (balance.Known, bool, error) {
	t := float64(s.Temperature)
	w, ok := solution.BrineStrength(rho, t)
	if !ok {
		fresh, err := solution.Density(solution.Composition{}, t)
		if err != nil {
			return balance.Known{}, false, err
		}
		// About 7 kg/m3 go with one percent of salt.
		if short := (fresh - rho) / 700; short > 0 && short <= readingTolerance {
			return s.end(0)
		}
		return balance.Known{}, false, s.outside()
	}
	cold, err := solution.Anchored().Freezing(solution.Brine(w))
	k := balance.Known{Strength: quantity.Strength(w), Temperature: s.Temperature, Density: quantity.Density(rho), Freezing: cold}
	if err != nil || !k.DropsSalt() {
		return k, false, err
	}
	full, err := balance.Saturation(s.Temperature)
	switch over := k.Strength - full; {
	case err != nil:
		return balance.Known{}, false, err
	case over > readingTolerance:
		return balance.Known{}, false, s.outside()
	case over > 0:
		return s.end(full)
	}
	return k, false, nil
}

// end takes fresh water or saturated brine for what the instrument shows.
func (s Sample) end(w quantity.Strength) (balance.Known, bool, error) {
	k, err := balance.Know(fault.FieldReading, w, s.Temperature)
	return k, true, err
}

// outside says between which readings a brine at the sample's temperature lies.
func (s Sample) outside() error {
	full, err := balance.Saturation(s.Temperature)
	low, noLow := Expected(s.Instrument, 0, s.Temperature)
	high, noHigh := Expected(s.Instrument, full, s.Temperature)
	return cmp.Or(err, noLow, noHigh, fault.Input(fault.FieldReading, "no salt brine at %v shows that; allowed: %v (fresh water) to %v (saturated)",
		s.Temperature, s.Instrument.Quantity(low), s.Instrument.Quantity(high)))
}

// describe fills in what follows from the brine and the density of the mark (kg/m3).
func (r *ReadingResult) describe(mark float64) {
	calibration := r.Sample.Instrument.Calibration
	if !r.Sample.Instrument.Floats() {
		mark, calibration = float64(r.Density), solution.SixtyF
	}
	r.True = r.Strength
	r.MarkDensity = quantity.Density(mark)
	r.Apparent = apparentStrength(mark, calibration)
	r.SaltPerVolume = quantity.Density(float64(r.True) * float64(r.Density))
	r.Solid = r.PartSolid() && !r.Clamped
}

// apparentStrength is the strength that a density stands for at the calibration
// temperature (K), or the end of the scale that it lies beyond.
func apparentStrength(mark, calibration float64) quantity.Strength {
	w, ok := solution.BrineStrength(mark, calibration)
	if ok {
		return quantity.Strength(w)
	}
	if top, err := solution.Density(solution.Brine(solution.BrineTop), calibration); err == nil && mark > top {
		return solution.BrineTop
	}
	return 0
}

// The temperatures between which densities are known.
const densityFloor, densityCeiling = quantity.Temperature(solution.DensityFloor), quantity.Temperature(solution.Ceiling)

// Expected returns what the instrument shows in NaCl brine of a true strength at
// a temperature. Errors: InputError for a strength or temperature of no brine,
// and for a glass marked for such a temperature.
func Expected(i gauge.Instrument, s quantity.Strength, t quantity.Temperature) (float64, error) {
	most := quantity.Strength(solution.MaxSolute)
	if err := cmp.Or(
		fault.If(!fault.Within(t, densityFloor, densityCeiling), fault.FieldTemperature,
			"outside what densities are known for; allowed: %v to %v", densityFloor, densityCeiling),
		fault.If(!(s >= 0 && s <= most), fault.FieldStrength, "no brine is that strong; allowed: 0%% to %v", most),
	); err != nil {
		return 0, err
	}
	return shown(i, balance.BrineDensity(s, t), t)
}

// shown returns what the instrument shows in brine of a density at a temperature.
func shown(i gauge.Instrument, rho quantity.Density, t quantity.Temperature) (float64, error) {
	// Fresh or nearly saturated brine can stand off a strength scale at one end.
	reading, ok := i.Nearest(float64(rho), float64(t))
	if !ok {
		return 0, fault.Input(fault.FieldCalibration, "no glass is marked for that; allowed: %v to %v", densityFloor, densityCeiling)
	}
	return reading, nil
}
