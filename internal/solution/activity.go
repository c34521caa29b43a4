package solution

import "math"

// Activity holds the activities in a solution at one temperature.
type Activity struct {
	// LnWater is the natural logarithm of the activity of water.
	LnWater float64
	// Osmotic is the osmotic coefficient (1 for pure water).
	Osmotic float64
	// LnChloride is the natural logarithm of the activity of the chloride ion
	// on the molality scale; minus infinity without chloride.
	LnChloride float64
	// LnCation is the same for Na, K, Ca and Mg, indexed by their chloride.
	LnCation [saltCount]float64
}

// ActivityAt returns the activities in a solution at the given temperature (K).
// Reference values are met to 2e-6 in ln(water activity) from -45 to 25 C up to
// a mass fraction of 0.3. Errors: ErrComposition, ErrTemperature.
//
// Equations: Pitzer (1973, 1975) for one common anion.
func ActivityAt(c Composition, temperature float64) (Activity, error) {
	return standard.activityAt(c, temperature)
}

func (k *coefficients) activityAt(c Composition, temperature float64) (Activity, error) {
	if err := checkState(c, temperature); err != nil {
		return Activity{}, err
	}
	m := k.molality(c)
	p := k.parametersAt(temperature, &m)
	return p.activity(&m), nil
}

// ions are the molalities in the sums of Pitzer's equations.
type ions struct {
	m        *molality
	ionic    float64 // ionic strength I
	root     float64 // sqrt I
	chloride float64
}

// sums adds up the terms of Pitzer's equations, in the order of the papers: those of
// Debye and Hueckel, of each cation with chloride, and of each pair of cations.
type sums struct {
	f        float64            // F
	osmotic  float64            // (phi - 1) times half the sum of m
	cation   [saltCount]float64 // ln gamma of the cations, without z^2 F and z C
	chloride float64            // ln gamma of chloride, without F and C
	c        float64            // sum of m m C over the salts
}

// activity evaluates the Pitzer equations at molalities m.
func (p *parameters) activity(m *molality) Activity {
	a := pureWater()
	x := ions{m: m, ionic: m.ionicStrength(), chloride: m.chloride()}
	if x.ionic == 0 {
		return a
	}
	x.root = math.Sqrt(x.ionic)
	s := p.debyeHueckel(&x)
	p.addSalts(&s, &x)
	p.addPairs(&s, &x)

	a.LnChloride = math.Log(x.chloride) + s.f + s.chloride + s.c
	for i := range m {
		if m[i] == 0 {
			continue
		}
		charge := p.k.salt[i].charge
		a.LnCation[i] = math.Log(m[i]) + charge*charge*s.f + s.cation[i] + charge*s.c
	}
	a.Osmotic = 1 + 2*s.osmotic/m.dissolved()
	a.LnWater = -a.Osmotic * m.dissolved() * p.k.water
	return a
}

// debyeHueckel returns the first terms of F and of the osmotic sum.
func (p *parameters) debyeHueckel(x *ions) sums {
	b := p.k.debyeB
	inner := 1 + b*x.root
	return sums{
		f:       -p.aPhi * (x.root/inner + 2/b*math.Log(inner)),
		osmotic: -p.aPhi * x.ionic * x.root / inner,
	}
}

// addSalts adds the interactions of each cation with chloride.
func (p *parameters) addSalts(s *sums, x *ions) {
	m, chloride := x.m, x.chloride
	z := 2 * chloride // Z = sum of m |z|; cations and anions carry the same
	for i := range m {
		if m[i] == 0 {
			continue
		}
		b, c := p.second(Salt(i), x), p.binary[i].c
		s.f += m[i] * chloride * b.slope
		s.osmotic += m[i] * chloride * (b.osmotic + z*c)
		s.cation[i] += chloride * (2*b.value + z*c)
		s.chloride += m[i] * (2*b.value + z*c)
		s.c += m[i] * chloride * c
	}
}

// addPairs adds the interactions of two cations with each other, and with chloride as
// the third ion.
func (p *parameters) addPairs(s *sums, x *ions) {
	m, chloride, salt, pairs := x.m, x.chloride, &p.k.salt, &p.k.pair
	e := p.electrostatic(x)
	for i := range pairs {
		q := &pairs[i]
		product := m[q.first] * m[q.second]
		if product == 0 {
			continue
		}
		phi, slope := p.pair[i].theta, 0.0
		if salt[q.first].charge != salt[q.second].charge {
			phi += e.value
			slope = e.slope
		}
		psi := p.pair[i].psi
		s.f += product * slope
		s.osmotic += product * (phi + x.ionic*slope + chloride*psi)
		s.cation[q.first] += m[q.second] * (2*phi + chloride*psi)
		s.cation[q.second] += m[q.first] * (2*phi + chloride*psi)
		s.chloride += product * psi
	}
}

func pureWater() Activity {
	none := math.Inf(-1)
	return Activity{Osmotic: 1, LnChloride: none, LnCation: [saltCount]float64{none, none, none, none}}
}

// interaction is the second virial coefficient B of two ions: its value in ln gamma,
// its value in the osmotic coefficient (B-phi) and its slope with ionic strength (B').
type interaction struct{ value, osmotic, slope float64 }

// second evaluates B, B-phi and B' of one salt, Pitzer (1973):
//
//	B     = b0 + b1 g(alpha1 sqrt I) + b2 g(alpha2 sqrt I)
//	B-phi = b0 + b1 exp(-alpha1 sqrt I) + b2 exp(-alpha2 sqrt I)
//	B'    = (B-phi - B) / I
//
// with g(x) = 2 (1 - (1 + x) exp(-x)) / x^2. The last line is Pitzer's B', since
// dg/d(ln I) = exp(-x) - g(x).
func (p *parameters) second(s Salt, x *ions) interaction {
	alpha, b := &p.k.binary[s], &p.binary[s]
	g1, e1 := virial(alpha.alpha1 * x.root)
	g2, e2 := virial(alpha.alpha2 * x.root)
	value := b.b0 + b.b1*g1 + b.b2*g2
	osmotic := b.b0 + b.b1*e1 + b.b2*e2
	return interaction{value, osmotic, (osmotic - value) / x.ionic}
}

// virial returns g(x) and exp(-x). Near zero, where the formula loses digits, g comes
// from its series 1 - 2x/3 + x^2/4.
func virial(x float64) (g, e float64) {
	e = math.Exp(-x)
	if x < 1e-4 {
		return 1 - 2*x/3 + x*x/4, e
	}
	return 2 * (1 - (1+x)*e) / (x * x), e
}
