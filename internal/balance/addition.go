package balance

import (
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Addition is what 1 kg of something brings to a tank: Salt kg of NaCl, and Brine kg of
// liquid, the NaCl counted. The rest of it settles as sludge.
type Addition struct{ Salt, Brine float64 }

// Water returns what fresh water brings.
func Water() Addition { return Addition{Salt: 0, Brine: 1} }

// Stock returns what stored brine of a strength brings.
func Stock(s quantity.Strength) Addition { return Addition{Salt: float64(s), Brine: 1} }

// RockSalt returns what rock salt brings, by the NaCl and the water in 1 kg as delivered.
func RockSalt(sodiumChloride float64, moisture quantity.Strength) Addition {
	return Addition{Salt: sodiumChloride, Brine: sodiumChloride + float64(moisture)}
}

// Dose returns the mass to add that takes a mass of brine from strength w to wt. It is
// below 0 where the addition leads away from wt.
//
//	NaCl  = m w + x a, brine = m + x b, wt = NaCl / brine
//	x     = m (wt - w) / (a - wt b)
func (a Addition) Dose(m quantity.Mass, w, wt quantity.Strength) quantity.Mass {
	return quantity.Mass(float64(m) * float64(wt-w) / (a.Salt - float64(wt)*a.Brine))
}

// Brings returns the liquid that a mass of the addition becomes. Fresh water has no name,
// since it does not change what a liquid is called.
func (a Addition) Brings(m quantity.Mass) Vessel {
	if a.Brine == 0 {
		return Vessel{}
	}
	l := Liquid{Composition: solution.Brine(a.Salt / a.Brine)}
	if a.Salt > 0 {
		l.Name = BrineName
	}
	return Vessel{Liquid: l, Mass: quantity.Mass(a.Brine * float64(m))}
}
