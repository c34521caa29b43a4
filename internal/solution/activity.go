package solution

import "math"

// Activity is the thermodynamic state of a solution at one temperature.
type Activity struct {
	// LnWater is the natural logarithm of the activity of water.
	LnWater float64
	// Osmotic is the osmotic coefficient (1 for pure water).
	Osmotic float64
	// LnChloride is the natural logarithm of the activity of the chloride ion
	// on the molality scale; minus infinity where there is none.
	LnChloride float64
	// LnCation is the same for Na, K, Ca and Mg, indexed by their chloride.
	LnCation [saltCount]float64
}

// ActivityAt returns the activities in a solution at the given temperature (K).
// Reference values are met to 1e-4 in ln(water activity) from -45 to 25 C up to
// a mass fraction of 0.3. Errors: ErrComposition, ErrTemperature.
//
// Equations: Pitzer (1973, 1975) for one common anion.
func ActivityAt(c Composition, temperature float64) (Activity, error) {
	if err := checkState(c, temperature); err != nil {
		return Activity{}, err
	}
	m := c.molality()
	p := parametersAt(temperature, &m)
	return p.activity(&m), nil
}

// activity evaluates the Pitzer equations at molalities m.
func (p *parameters) activity(m *molality) Activity {
	strength := m.ionicStrength()
	if strength == 0 {
		return pureWater()
	}
	root := math.Sqrt(strength)
	chloride := m.chloride()
	z := 2 * chloride // Z = sum of m |z|; cations and anions carry the same

	// F and the osmotic sum start with the Debye-Hueckel terms.
	inner := 1 + constants.debyeB*root
	f := -p.aPhi * (root/inner + 2/constants.debyeB*math.Log(inner))
	osmotic := -p.aPhi * strength * root / inner

	var gamma [saltCount]float64 // ln gamma of the cations, without z^2 F
	var gammaCl, sumC float64
	for s := range m {
		if m[s] == 0 {
			continue
		}
		b := p.second(Salt(s), strength, root)
		c := p.binary[s].c
		f += m[s] * chloride * b.slope
		osmotic += m[s] * chloride * (b.osmotic + z*c)
		gamma[s] += chloride * (2*b.value + z*c)
		gammaCl += m[s] * (2*b.value + z*c)
		sumC += m[s] * chloride * c
	}

	e := p.electrostatic(m, strength, root)
	for i := range pairTable {
		first, second := pairTable[i].first, pairTable[i].second
		product := m[first] * m[second]
		if product == 0 {
			continue
		}
		phi, slope := p.pair[i].theta, 0.0
		if saltData[first].charge != saltData[second].charge {
			phi += e.value
			slope = e.slope
		}
		psi := p.pair[i].psi
		f += product * slope
		osmotic += product * (phi + strength*slope + chloride*psi)
		gamma[first] += m[second] * (2*phi + chloride*psi)
		gamma[second] += m[first] * (2*phi + chloride*psi)
		gammaCl += product * psi
	}

	a := Activity{LnChloride: math.Log(chloride) + f + gammaCl + sumC}
	for s := range m {
		charge := saltData[s].charge
		a.LnCation[s] = math.Log(m[s]) + charge*charge*f + gamma[s] + charge*sumC
	}
	a.Osmotic = 1 + 2*osmotic/m.dissolved()
	a.LnWater = -a.Osmotic * m.dissolved() * constants.water
	return a
}

func pureWater() Activity {
	none := math.Inf(-1)
	return Activity{Osmotic: 1, LnChloride: none, LnCation: [saltCount]float64{none, none, none, none}}
}

// coefficient is a second virial coefficient B of a salt: its value in ln gamma,
// its value in the osmotic coefficient (B-phi) and its slope with ionic strength
// (B').
type coefficient struct{ value, osmotic, slope float64 }

// second evaluates B, B-phi and B' of one salt, Pitzer (1973):
//
//	B     = b0 + b1 g(alpha1 sqrt I) + b2 g(alpha2 sqrt I)
//	B-phi = b0 + b1 exp(-alpha1 sqrt I) + b2 exp(-alpha2 sqrt I)
//	B'    = (B-phi - B) / I
//
// with g(x) = 2 (1 - (1 + x) exp(-x)) / x^2. The last line is Pitzer's B', since
// dg/d(ln I) = exp(-x) - g(x).
func (p *parameters) second(s Salt, strength, root float64) coefficient {
	b := &p.binary[s]
	g1, e1 := virial(binaryTable[s].alpha1 * root)
	g2, e2 := virial(binaryTable[s].alpha2 * root)
	value := b.b0 + b.b1*g1 + b.b2*g2
	osmotic := b.b0 + b.b1*e1 + b.b2*e2
	return coefficient{value, osmotic, (osmotic - value) / strength}
}

// virial returns g(x) and exp(-x). Near zero, where g loses its digits, it uses
// the series g = 1 - 2x/3 + x^2/4.
func virial(x float64) (g, e float64) {
	e = math.Exp(-x)
	if x < 1e-4 {
		return 1 - 2*x/3 + x*x/4, e
	}
	return 2 * (1 - (1+x)*e) / (x * x), e
}
