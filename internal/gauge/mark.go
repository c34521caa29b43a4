package gauge

// Mark returns the density in kg/m3 for which the mark of a reading was made; false for a
// reading off the scale. For a weighed sample it is the reading itself.
func (i Instrument) Mark(reading float64) (float64, bool) {
	return i.facts().mark(&standard, reading, i.Calibration)
}

// Sample returns the density in kg/m3 of a sample at temperature (K) in which the
// instrument floats at the mark for a density; false outside the density fit.
func (i Instrument) Sample(mark, temperature float64) (float64, bool) {
	return mark / i.glass(&standard, temperature), liquid(temperature)
}
