package solution

import "math"

// electrostatic returns the higher-order term E-theta between a singly and a
// doubly charged cation, and its slope with ionic strength (Pitzer 1975):
//
//	E-theta  = zi zj / (4 I) (J(xij) - J(xii)/2 - J(xjj)/2)
//	E-theta' = -E-theta / I + zi zj / (8 I^2) (xij J'(xij) - xii J'(xii)/2 - xjj J'(xjj)/2)
//	xij      = 6 zi zj A-phi sqrt(I)
//
// For two cations of equal charge it is zero, so one value serves every pair.
func (p *parameters) electrostatic(at *ions) interaction {
	m, ionic := at.m, at.ionic
	if m[NaCl]+m[KCl] == 0 || m[CaCl2]+m[MgCl2] == 0 {
		return interaction{}
	}
	const zz = 2 // zi zj
	x := 6 * p.aPhi * at.root
	j1, d1 := p.k.pitzerJ(x)
	j2, d2 := p.k.pitzerJ(zz * x)
	j4, d4 := p.k.pitzerJ(zz * zz * x)
	value := zz / (4 * ionic) * (j2 - j1/2 - j4/2)
	slope := -value/ionic + zz/(8*ionic*ionic)*(zz*x*d2-x*d1/2-zz*zz*x*d4/2)
	return interaction{value: value, slope: slope}
}

// pitzerJ returns J(x), x > 0, and its derivative from Harvie's Chebyshev
// expansions (C. E. Harvie, dissertation, San Diego 1981; in Pitzer (ed.),
// Activity Coefficients in Electrolyte Solutions, 2nd ed., 1991, chapter 3):
//
//	x <= 1: z = 4 x^0.2 - 2
//	x > 1:  z = 40/9 x^-0.1 - 22/9
//	J = x/4 - 1 + (b0 - b2)/2, with bk = z bk+1 - bk+2 + ak
//
// They meet the defining integral to 1e-8 (see the tests). Pitzer's own closed
// approximation errs by up to 1e-3 of J between x = 2 and 50, which is 0.002 in a
// saturation index of a strong calcium brine.
func (k *coefficients) pitzerJ(x float64) (j, derivative float64) {
	series, z, slope := &k.jLarge, 0.0, 0.0
	if x <= 1 {
		series = &k.jSmall
		power := math.Pow(x, 0.2)
		z, slope = 4*power-2, 0.8*power/x
	} else {
		power := math.Pow(x, -0.1)
		z, slope = 40.0/9*power-22.0/9, -4.0/9*power/x
	}
	var b0, b1, b2, d0, d1, d2 float64
	for i := len(series) - 1; i >= 0; i-- {
		d0, d1, d2 = b0+z*d0-d1, d0, d1
		b0, b1, b2 = z*b0-b1+series[i], b0, b1
	}
	return x/4 - 1 + (b0-b2)/2, 0.25 + slope*(d0-d2)/2
}

// harvieSmall returns Harvie's coefficients for x up to 1.
func harvieSmall() [21]float64 {
	return [21]float64{
		1.925154014814667, -0.060076477753119, -0.029779077456514, -0.007299499690937,
		0.000388260636404, 0.000636874599598, 0.000036583601823, -0.000045036975204,
		-0.000004537895710, 0.000002937706971, 0.000000396566462, -0.000000202099617,
		-0.000000025267769, 0.000000013522610, 0.000000001229405, -0.000000000821969,
		-0.000000000050847, 0.000000000046333, 0.000000000001943, -0.000000000002563,
		-0.000000000010991,
	}
}

// harvieLarge returns Harvie's coefficients for x above 1.
func harvieLarge() [21]float64 {
	return [21]float64{
		0.628023320520852, 0.462762985338493, 0.150044637187895, -0.028796057604906,
		-0.036552745910311, -0.001668087945272, 0.006519840398744, 0.001130378079086,
		-0.000887171310131, -0.000242107641309, 0.000087294451594, 0.000034682122751,
		-0.000004583768938, -0.000003548684306, -0.000000250453880, 0.000000216991779,
		0.000000080779570, 0.000000004558555, -0.000000006944757, -0.000000002849257,
		0.000000000237816,
	}
}
