package hydraulics

import (
	"math"

	"brineyard/internal/quantity"
	"brineyard/internal/solution"
)

// Viscosity is a dynamic viscosity, Pa s.
type Viscosity float64

// salt holds the coefficients of a salt.
type salt struct{ v1, v2, v3, v4, v5, v6 float64 }

// The coefficients of M. Laliberte, J. Chem. Eng. Data 54 (2009) 1725, doi 10.1021/je8008123.
var (
	nacl  = salt{16.221788633396, 1.32293086770011, 1.48485985010431, 0.00746912559657377, 30.7802007540575, 2.05826852322558}
	kcl   = salt{6.48805967116487, 1.31753131265255, -0.777820552977139, 0.0927156022360008, -1.30020256174307, 2.08120731758225}
	cacl2 = salt{32.0143699446531, 0.788104085857794, -1.14120453890547, 0.00270010693201763, 776516.746907194, 5.83888130672249}
	mgcl2 = salt{35.3996277859551, 2.73271428999181, 3.92973827779435, 0.0204320817584697, -1.11964615409186, 0.14494238171532}
)

// ViscosityOf is the dynamic viscosity of a solution of chlorides at a temperature, by Laliberte's law of mixing:
//
//	ln eta = w_water ln eta_water + sum of w_i ln eta_i,
//	eta_i = exp((v1 (1-w_water)^v2 + v3) / (v4 t + 1)) / (v5 (1-w_water)^v6 + 1), in mPa s, t in degrees C,
//	eta_water = (t + 246) / ((0.05594 t + 5.2842) t + 137.37).
//
// It was fitted from 0 to 100 degrees and to about saturation. Magnesium chloride was fitted from 15 degrees up: below that
// it counts as calcium chloride of the same part, whose fit reaches 0. Colder brine counts as of 0 degrees C, where it
// is thinner than in truth. A product that is no chloride counts as 30 % calcium chloride, which is thick.
func ViscosityOf(c solution.Composition, t quantity.Temperature) Viscosity {
	celsius := math.Max(0, t.Celsius())
	calcium, magnesium := c.CaCl2, c.MgCl2
	if celsius < 15 {
		calcium, magnesium = calcium+magnesium, 0
	}
	water := 1 - c.NaCl - c.KCl - calcium - magnesium
	log := water * math.Log((celsius+246)/((0.05594*celsius+5.2842)*celsius+137.37))
	for _, part := range []struct {
		w float64
		s salt
	}{{c.NaCl, nacl}, {c.KCl, kcl}, {calcium, cacl2}, {magnesium, mgcl2}} {
		if part.w > 0 {
			log += part.w * part.s.log(1-water, celsius)
		}
	}
	return Viscosity(math.Exp(log) / 1000)
}

func (s salt) log(w, t float64) float64 {
	return (s.v1*math.Pow(w, s.v2)+s.v3)/(s.v4*t+1) - math.Log(s.v5*math.Pow(w, s.v6)+1)
}

// Thick is the viscosity of a product of which nothing else is known.
func Thick(t quantity.Temperature) Viscosity {
	return ViscosityOf(solution.Composition{CaCl2: 0.3}, t)
}
