package solution

import "math"

// Solid is a solid that a chloride brine can form on cooling.
type Solid int

// The solids of the model.
const (
	Ice Solid = iota
	Halite
	Hydrohalite
	Sylvite
	Bischofite
	MgCl2Octahydrate
	MgCl2Dodecahydrate
	Antarcticite
	solidCount
)

// solidRow is what a solid consists of, and its solubility product.
type solidRow struct {
	name    string
	formula string
	salt    Salt       // in one formula unit; AllSalts for ice, which has none
	water   float64    // molecules in one formula unit
	logK    [6]float64 // b1 to b6 of logK
}

// The solubility products of Toner and Catling (2017), doi 10.1021/acs.jced.7b00265.
func solidTable() [solidCount]solidRow {
	return [solidCount]solidRow{
		Ice:                {"ice", "H2O", AllSalts, 1, [6]float64{-1.10976341e+01, 5.11995404e-03, 3.48880086e+02, 3.65409383e+00, -7.51772938e+03, -5.09587694e-06}},
		Halite:             {"halite", "NaCl", NaCl, 0, [6]float64{-9.23625740e+01, -7.13492206e-02, 1.41235386e+03, 4.37540523e+01, -7.21340330e+04, 3.41140194e-05}},
		Hydrohalite:        {"hydrohalite", "NaCl.2H2O", NaCl, 2, [6]float64{-1.17676947e+02, -6.72022066e-02, 2.00972645e+03, 5.29295029e+01, -8.71730584e+04, 2.87396671e-05}},
		Sylvite:            {"sylvite", "KCl", KCl, 0, [6]float64{1.30535936e+02, -3.91368319e-02, -9.24194776e+03, -3.82764516e+01, 3.37736436e+05, 4.44874215e-05}},
		Bischofite:         {"bischofite", "MgCl2.6H2O", MgCl2, 6, [6]float64{2.46395926e+01, 5.90910963e-02, 2.68456507e+03, -1.57871021e+01, -2.39877356e+05, -5.56842159e-05}},
		MgCl2Octahydrate:   {"magnesium chloride octahydrate", "MgCl2.8H2O", MgCl2, 8, [6]float64{2.69077213e+00, 6.49725432e-02, 2.56108150e+03, -7.33697311e+00, -2.53958289e+05, -6.18927911e-05}},
		MgCl2Dodecahydrate: {"magnesium chloride dodecahydrate", "MgCl2.12H2O", MgCl2, 12, [6]float64{-4.49253758e+01, 7.67593043e-02, 3.78276461e+03, 9.06144419e+00, -2.82777364e+05, -7.34185840e-05}},
		Antarcticite:       {"antarcticite", "CaCl2.6H2O", CaCl2, 6, [6]float64{1.71173898e+02, 1.63268100e-02, -8.70571336e+03, -5.91637207e+01, 2.80039803e+05, 3.89050726e-06}},
	}
}

// String returns the mineral's or the compound's name.
func (s Solid) String() string { return standard.solid[s].name }

// Formula returns the chemical formula.
func (s Solid) Formula() string { return standard.solid[s].formula }

// Salt returns the chloride in the solid; it is false for ice.
func (s Solid) Salt() (Salt, bool) { return standard.solid[s].salt, s != Ice }

// MolarMass returns the mass of one formula unit in kg/mol.
func (s Solid) MolarMass() float64 { return standard.massOf(s) }

func (k *coefficients) massOf(s Solid) float64 {
	d := &k.solid[s]
	mass := d.water * k.water
	if d.salt != AllSalts {
		mass += k.salt[d.salt].molarMass
	}
	return mass
}

// Solids returns ice and all salt solids of the model.
func Solids() []Solid {
	all := make([]Solid, solidCount)
	for i := range all {
		all[i] = Solid(i)
	}
	return all
}

// logK returns log10 of the solubility product K of a solid at t (K):
//
//	log10 K = b1 + b2 T + b3/T + b4 log10 T + b5/T^2 + b6 T^2
//
// K is the activity product of the ions and the water; for ice it is the activity of
// the liquid water that is in equilibrium with it.
func (k *coefficients) logK(s Solid, t float64) float64 {
	b := &k.solid[s].logK
	return b[0] + b[1]*t + b[2]/t + b[3]*math.Log10(t) + b[4]/(t*t) + b[5]*t*t
}

// logKSlope returns the derivative of log10 K with temperature, 1/K.
func (k *coefficients) logKSlope(s Solid, t float64) float64 {
	b := &k.solid[s].logK
	return b[1] - b[2]/(t*t) + b[3]/(t*math.Ln10) - 2*b[4]/(t*t*t) + 2*b[5]*t
}

// logProduct returns log10 of a solid's activity product in the state a; minus
// infinity where its salt is absent.
func (k *coefficients) logProduct(s Solid, a *Activity) float64 {
	d := &k.solid[s]
	sum := d.water * a.LnWater
	if s != Ice {
		sum += a.LnCation[d.salt] + k.salt[d.salt].charge*a.LnChloride
	}
	return sum / math.Ln10
}

// LnIceActivity returns the natural logarithm of the activity of water that is in
// equilibrium with ice at a temperature in K, for about -70 to 0 C.
func LnIceActivity(temperature float64) float64 { return math.Ln10 * standard.logK(Ice, temperature) }
