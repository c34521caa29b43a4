package solution

// Property is one of the fits that have a range of their own.
type Property int

// The properties that OutOfRange knows.
const (
	Saturation Property = iota // activities, freezing, solubility
	DensityFit
	HeatFit // heat capacity
)

// String names the property.
func (p Property) String() string {
	return [...]string{"activity", "density", "heat capacity"}[p]
}

// FitRange is a range of temperature or of strength in which a fit was made or
// checked.
type FitRange struct {
	Property Property
	Salt     Salt // the salt that was fitted; AllSalts for the whole model
	// Low and High bound the temperature (K); both are 0 for a range of strength.
	Low, High float64
	// Strength bounds the total mass fraction dissolved; it is 0 for a range of
	// temperature.
	Strength float64
}

// AllSalts stands for no salt in particular.
const AllSalts Salt = -1

// CheckedTo is the total mass fraction up to which the activity model has been
// compared with reference values.
const CheckedTo = 0.32

// OutOfRange returns the ranges of a property's fit that a solution at a temperature
// (K) lies outside of, by more than rounding.
func OutOfRange(p Property, c Composition, temperature float64) []FitRange {
	return standard.outOfRange(p, c, temperature)
}

func (k *coefficients) outOfRange(p Property, c Composition, temperature float64) []FitRange {
	if p == Saturation {
		return FitRange{p, AllSalts, Floor, FitCeiling, CheckedTo}.missedBy(c, temperature)
	}
	var out []FitRange
	widest := FitRange{Property: p, Salt: AllSalts}
	for s, w := range densitySolutes(c) {
		if w == 0 {
			continue
		}
		if p == HeatFit {
			out = append(out, FitRange{Property: p, Salt: Salt(s), Low: k.laliberte[s].heatLow + zeroCelsius, High: Ceiling}.missedBy(c, temperature)...)
			continue
		}
		r := k.laliberte[s].density
		own := FitRange{Property: p, Salt: Salt(s), Low: r.low + zeroCelsius, High: r.high + zeroCelsius}
		out = append(out, own.missedBy(c, temperature)...)
		if r.w > widest.Strength {
			widest.Strength, widest.Salt = r.w, Salt(s)
		}
	}
	// The fits take all that is dissolved as their strength: a mixture may be as
	// strong as the salt that was measured furthest.
	return append(out, widest.missedBy(c, temperature)...)
}

// missedBy splits a range into that of temperature and that of strength, where it
// has them, and returns those that the solution lies outside of.
func (r FitRange) missedBy(c Composition, temperature float64) []FitRange {
	const degrees, share = 0.05, 5e-4
	var out []FitRange
	if r.High > 0 && (temperature < r.Low-degrees || temperature > r.High+degrees) {
		out = append(out, FitRange{Property: r.Property, Salt: r.Salt, Low: r.Low, High: r.High})
	}
	if r.Strength > 0 && c.Solute() > r.Strength+share {
		out = append(out, FitRange{Property: r.Property, Salt: r.Salt, Strength: r.Strength})
	}
	return out
}
