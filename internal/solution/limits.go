package solution

// Property is one of the fits that have a range of their own.
type Property int

// The properties that Limits knows.
const (
	Saturation Property = iota // activities, freezing, solubility
	DensityFit
	ViscosityFit
	HeatCapacityFit
)

// String names the property.
func (p Property) String() string {
	return [...]string{"activity", "density", "viscosity", "heat capacity"}[p]
}

// Limit is a range in which a fit was made, or checked, and which a question
// leaves: of temperature, or of strength.
type Limit struct {
	Property Property
	Salt     Salt // the salt whose fit it is; AllSalts for the whole model
	// Low and High bound the temperature (K); both 0 for a limit of strength.
	Low, High float64
	// Strength bounds the total mass fraction dissolved; 0 for a limit of
	// temperature.
	Strength float64
}

// AllSalts stands for no salt in particular.
const AllSalts Salt = -1

// Limits returns the ranges of a property's fit that a question leaves, none when
// it lies inside. The temperature is in K.
func Limits(p Property, c Composition, temperature float64) []Limit {
	if p == Saturation {
		return outside(Limit{Property: p, Salt: AllSalts, Low: Floor, High: FitCeiling, Strength: checkedTo}, c, temperature)
	}
	var out []Limit
	for s, w := range densitySolutes(c) {
		if w == 0 {
			continue
		}
		r := laliberteTable[s].span(p)
		out = append(out, outside(Limit{p, Salt(s), r.low + zeroCelsius, r.high + zeroCelsius, r.w}, c, temperature)...)
	}
	return out
}

// checkedTo is the total mass fraction up to which the activity model has been
// compared with reference values.
const checkedTo = 0.32

// outside splits a range into the limit of temperature and that of strength, and
// returns those that are left by more than rounding.
func outside(l Limit, c Composition, temperature float64) []Limit {
	const degrees, share = 0.05, 5e-4
	var out []Limit
	if temperature < l.Low-degrees || temperature > l.High+degrees {
		out = append(out, Limit{Property: l.Property, Salt: l.Salt, Low: l.Low, High: l.High})
	}
	if c.Solute() > l.Strength+share {
		out = append(out, Limit{Property: l.Property, Salt: l.Salt, Strength: l.Strength})
	}
	return out
}

func (l *laliberte) span(p Property) span {
	switch p {
	case ViscosityFit:
		return l.viscosity
	case HeatCapacityFit:
		return l.heatCapacity
	default:
		return l.density
	}
}
