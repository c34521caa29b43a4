package quantity

// A step is the difference of two readings of one instrument, like what lies between its marks, or
// what it shows too much: a quantity without its zero, which may lie below 0.

var (
	strengthStep  = stepOf(&strengthDim, "0.5%", 0.5)
	gravityStep   = stepOf(&gravityDim, "0.005", 0.5)
	salometerStep = stepOf(&salometerDim, "1", 50)
	baumeStep     = stepOf(&baumeDim, "0.5", 50)
	densityStep   = stepOf(&densityDim, "0.02lb/gal or 2kg/m3", 500)
	degreeStep    = stepOf(&temperatureDim, "2F or 1C", 50)
)

// stepOf makes the steps of a dimension, up to most (SI) either way.
func stepOf(d *dimension, example string, most float64) dimension {
	step := dimension{name: "a difference of readings", example: example, low: -most, high: most}
	for _, u := range d.units {
		step.units = append(step.units, unit{names: u.names, scale: u.scale})
	}
	return step
}

// ParseStrengthStep reads a step of a percent glass like 0.5%; a bare number is percent.
func ParseStrengthStep(text string) (Strength, bool, error) {
	return parseAs[Strength](&strengthStep, text)
}

// ParseGravityStep reads a step of a gravity glass like 0.005.
func ParseGravityStep(text string) (SpecificGravity, bool, error) {
	return parseAs[SpecificGravity](&gravityStep, text)
}

// ParseSalometerStep reads a step of a salometer like 1.
func ParseSalometerStep(text string) (SalometerDegrees, bool, error) {
	return parseAs[SalometerDegrees](&salometerStep, text)
}

// ParseBaumeStep reads a step of a Baume glass like 0.5.
func ParseBaumeStep(text string) (BaumeDegrees, bool, error) {
	return parseAs[BaumeDegrees](&baumeStep, text)
}

// ParseDensityStep reads a difference of weighed samples like 0.02lb/gal; a bare number is lb/gal.
func ParseDensityStep(text string) (Density, bool, error) {
	return parseAs[Density](&densityStep, text)
}

// ParseDifference reads a difference of temperatures like 2F or 1C; a bare number is F.
func ParseDifference(text string) (Difference, bool, error) {
	return parseAs[Difference](&degreeStep, text)
}
