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
		return Limit{Property: p, Salt: AllSalts, Low: Floor, High: FitCeiling, Strength: CheckedTo}.leftBy(c, temperature)
	}
	var out []Limit
	widest := Limit{Property: p, Salt: AllSalts}
	for s, w := range densitySolutes(c) {
		if w == 0 {
			continue
		}
		r := laliberteTable[s].span(p)
		own := Limit{Property: p, Salt: Salt(s), Low: r.low + zeroCelsius, High: r.high + zeroCelsius}
		out = append(out, own.leftBy(c, temperature)...)
		if r.w > widest.Strength {
			widest.Strength, widest.Salt = r.w, Salt(s)
		}
	}
	// The fits go by all that is dissolved: a mixture is as well off as the salt
	// that was measured furthest.
	if widest.Strength > 0 {
		out = append(out, widest.leftBy(c, temperature)...)
	}
	return out
}

// CheckedTo is the total mass fraction up to which the activity model has been
// compared with reference values.
const CheckedTo = 0.32

// leftBy splits a range into the limit of temperature and that of strength, where it
// has them, and returns those that are left by more than rounding.
func (l Limit) leftBy(c Composition, temperature float64) []Limit {
	const degrees, share = 0.05, 5e-4
	var out []Limit
	if l.High > 0 && (temperature < l.Low-degrees || temperature > l.High+degrees) {
		out = append(out, Limit{Property: l.Property, Salt: l.Salt, Low: l.Low, High: l.High})
	}
	if l.Strength > 0 && c.Solute() > l.Strength+share {
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
