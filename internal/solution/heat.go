package solution

import "math"

// waterHeat returns the heat capacity of pure water at atmospheric pressure in
// kJ/(kg K), every 5 C from -10 to 60 C.
// Source: TEOS-10 (IOC, SCOR and IAPSO, 2010) at salinity 0, computed with the
// reference library GSW-Python 3.6.16, gsw.cp_t_exact(0, t, 0).
func waterHeat() [15]float64 {
	return [15]float64{
		4.26834, 4.23984, 4.21941, 4.20505, 4.19514, 4.18845, 4.18406, 4.18132,
		4.17981, 4.17925, 4.17942, 4.18012, 4.18101, 4.18156, 4.18091,
	}
}

const waterHeatStart, waterHeatStep = -10.0, 5.0

// heatOfWater interpolates linearly at t in C, and returns the end values outside the
// table. The interpolation errs by at most 1.2e-3 kJ/(kg K).
func (k *coefficients) heatOfWater(t float64) float64 {
	table := &k.waterHeat
	x := (t - waterHeatStart) / waterHeatStep
	x = math.Min(math.Max(x, 0), float64(len(table)-1))
	i := min(int(x), len(table)-2)
	return table[i] + (x-float64(i))*(table[i+1]-table[i])
}

// HeatCapacity returns the specific heat capacity in J/(kg K) of a solution at a
// temperature in K. The fits hold from 2 C (NaCl), 5 C (KCl, MgCl2) or 25 C
// (CaCl2). Errors: ErrComposition, ErrTemperature.
//
// Equations: Laliberte (2009), cp = sum of w cp over water and solutes, in
// kJ/(kg K) with t in C.
func HeatCapacity(c Composition, temperature float64) (float64, error) {
	if err := checkState(c, temperature); err != nil {
		return 0, err
	}
	return standard.heatCapacity(c, temperature-zeroCelsius), nil
}

// heatCapacity is HeatCapacity at t in C.
func (k *coefficients) heatCapacity(c Composition, t float64) float64 {
	water := c.Water()
	cp := water * k.heatOfWater(t)
	for s, w := range densitySolutes(c) {
		if w == 0 {
			continue
		}
		a := &k.laliberte[s].a
		// cp = a1 exp(a2 t + a3 exp(0.01 t) + a4 (1-ww)) + a5 (1-ww)^a6
		cp += w * (a[0]*math.Exp(a[1]*t+a[2]*math.Exp(0.01*t)+a[3]*(1-water)) + a[4]*math.Pow(1-water, a[5]))
	}
	return 1e3 * math.Max(cp, leastOfWater*water*k.heatOfWater(t))
}

// leastOfWater is the part of the heat capacity of its own water that every solution has at the least: those
// measured have nine tenths and more.
const leastOfWater = 0.7

// heatOfSolution returns the heat in J/mol that a solid takes up when it dissolves at
// infinite dilution (ice: melts) at t (K): van 't Hoff, R T^2 d ln K/dT. That of hydrohalite
// takes in the slope of the anchor.
func (m *Model) heatOfSolution(s Solid, t float64) float64 {
	slope := m.k.logKSlope(s, t)
	if s == Hydrohalite {
		slope += m.anchor.slope(t)
	}
	return m.k.gas * t * t * math.Ln10 * slope
}

// dissolvingFrom is the crystal from which the heat of each salt is counted.
var dissolvingFrom = [saltCount]Solid{NaCl: Halite, KCl: Sylvite, CaCl2: Antarcticite, MgCl2: Bischofite}

// HeatTaken returns the heat in J that one kg of the solution takes up when it is made
// at constant temperature (K) from liquid water and the crystals halite, sylvite,
// CaCl2.6H2O and MgCl2.6H2O. The heat of mixing or dissolving is the HeatTaken of the
// product less that of the ingredients, each times its mass; above zero it cools.
// Errors: ErrComposition, ErrTemperature.
//
// Equations: the heat at infinite dilution, and the excess enthalpy
// -R T^2 d(Gex/RT)/dT at constant molality (Pitzer 1973).
func HeatTaken(c Composition, temperature float64) (float64, error) {
	if err := checkState(c, temperature); err != nil {
		return 0, err
	}
	return standard.heatTaken(c, temperature), nil
}

func (k *coefficients) heatTaken(c Composition, t float64) float64 {
	m := k.molality(c)
	model := Model{k: k}
	heat := k.excessEnthalpy(&m, t) // J per kg of water
	for s := range m {
		if m[s] > 0 {
			heat += m[s] * model.heatOfSolution(dissolvingFrom[s], t)
		}
	}
	return heat * c.Water()
}

// excessEnthalpy returns J per kg of water. The derivative is a central difference
// over 0.02 K, whose error is below 1e-6 of the value.
func (k *coefficients) excessEnthalpy(m *molality, t float64) float64 {
	const h = 0.02
	slope := (k.excessGibbs(m, t+h) - k.excessGibbs(m, t-h)) / (2 * h)
	return -k.gas * t * t * slope
}

// excessGibbs returns Gex/(RT) per kg of water: sum of m (1 - phi + ln gamma)
// over all ions.
func (k *coefficients) excessGibbs(m *molality, t float64) float64 {
	p := k.parametersAt(t, m)
	a := p.activity(m)
	if m.ionicStrength() == 0 {
		return 0
	}
	chloride := m.chloride()
	sum := m.dissolved()*(1-a.Osmotic) + chloride*(a.LnChloride-math.Log(chloride))
	for s := range m {
		if m[s] > 0 {
			sum += m[s] * (a.LnCation[s] - math.Log(m[s]))
		}
	}
	return sum
}
