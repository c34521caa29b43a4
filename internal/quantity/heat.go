package quantity

// HeatPerVolume is in J/m3.
type HeatPerVolume float64

// btu is the British thermal unit (International Table), exact.
const btu = 1055.05585262

// In shows BTU/gal or kJ/L.
func (h HeatPerVolume) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(h)*float64(Liter)/1000, "kJ/L", tenthsIfAny)
	}
	return shown(float64(h)*float64(Gallon)/btu, "BTU/gal", tenthsIfAny)
}

// Fraction is a share by mass or volume, 0 to 1, or a ratio, which can be above 1.
type Fraction float64

// In shows percent.
func (f Fraction) In(System) Shown { return shown(100*float64(f), "%", hundredthsIfAny) }

// Count is a pure number: parts, batches.
type Count float64

// In shows the number to hundredths, without closing zeros.
func (c Count) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(c), "", hundredthsIfAny)
	}
	return shown(float64(c), "", hundredthsIfAny)
}
