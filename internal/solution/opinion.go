package solution

import "math"

// A second opinion on where hydrohalite falls out of brine with calcium chloride. The line on which ice and
// hydrohalite are both in equilibrium with such a liquid has been published; measured by it, the models put
// hydrohalite 2 to 5 C too warm. Neither is known to be right, so both are given.

// cotectic are the equations of that line: by weight, NaCl in NaCl and CaCl2 is (a + b t)^(-1/c) and the strength
// in percent 1 / (d + e t + f t^2), with t in C. G. Chi and P. Ni, Acta Petrologica Sinica 23 (2007) 33-37.
type cotectic struct{ a, b, c, d, e, f float64 }

func publishedCotectic() cotectic {
	return cotectic{a: 0.33124402, b: -0.031518028, c: 0.22932736, d: 0.057184817, e: 0.00078565757, f: 5.7262766e-6}
}

// coldestCotectic is where the line ends, at the eutectic with antarcticite, in C.
const coldestCotectic = -50

// at returns the temperature in C at which the line has a share of NaCl, and the strength of the liquid there, a mass
// fraction. A share below that at its end is taken for that one.
func (l *cotectic) at(share float64) (celsius, strength float64) {
	celsius = math.Max(coldestCotectic, (math.Pow(share, -l.c)-l.a)/l.b)
	return celsius, 1 / (l.d + l.e*celsius + l.f*celsius*celsius) / 100
}

// saltShare returns NaCl by weight in what there is of NaCl and the chlorides of calcium and magnesium; false where
// the composition does not hold both kinds.
func saltShare(c Composition) (share float64, mixed bool) {
	other := c.CaCl2 + c.MgCl2
	return c.NaCl / (c.NaCl + other), c.NaCl > 0 && other > 0
}

// fading is the power of the share of NaCl with which what the line lacks in pure salt brine, 0.6 C, fades out: the
// handbooks, which the anchor meets, are the better source there, and below a share of 0.7 the line is met to 0.05 C.
const fading = 8

// SecondOpinion returns the model with hydrohalite as the published line of ice and hydrohalite in brine with CaCl2
// has it, for the share of NaCl of a composition: log10 K is moved by what it lacks where the line has that
// share, the same at every temperature, and by nothing in pure salt brine. Above the line that is an
// extrapolation. For MgCl2 no such line is at hand: it counts as CaCl2. It is false where the composition holds
// no NaCl, or nothing but.
func (m *Model) SecondOpinion(c Composition) (*Model, bool) {
	share, mixed := saltShare(c)
	if !mixed {
		return m, false
	}
	pure, err := m.lacksOnLine(1)
	here, err2 := m.lacksOnLine(share)
	if err != nil || err2 != nil {
		return m, false
	}
	second := *m
	second.shift = here - math.Pow(share, fading)*pure
	return &second, true
}

// lacksOnLine is the saturation index of hydrohalite on the line at a share of NaCl.
func (m *Model) lacksOnLine(share float64) (float64, error) {
	celsius, strength := m.k.cotectic.at(share)
	return m.SaturationIndex(Hydrohalite, Composition{NaCl: share * strength, CaCl2: (1 - share) * strength}, zeroCelsius+celsius)
}
