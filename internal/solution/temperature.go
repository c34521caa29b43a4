package solution

import "math"

// The lowest and the highest temperature of any answer, in K: the lower end of the
// model, and well above any mixing tank. The fit of Pitzer's parameters ends at
// FitCeiling.
const (
	Floor      = zeroCelsius - 70
	Ceiling    = zeroCelsius + 60
	FitCeiling = zeroCelsius + 25
)

const (
	zeroCelsius = 273.15
	reference   = 298.15 // Tr of the fits, K
)

// terms are the temperature functions that multiply a1 to a5 of a fit.
type terms [5]float64

// termsAt evaluates them at t (K).
func termsAt(t float64) terms {
	return terms{
		1/t - 1/reference,
		math.Log(t / reference),
		t - reference,
		t*t - reference*reference,
		1/(t*t) - 1/(reference*reference),
	}
}

func (f *fit) at(x *terms) float64 {
	return f[0] + f[1]*x[0] + f[2]*x[1] + f[3]*x[2] + f[4]*x[3] + f[5]*x[4]
}

// parameters are the Pitzer parameters at one temperature.
type parameters struct {
	k           *coefficients
	temperature float64 // K
	aPhi        float64
	binary      [saltCount]binaryAt
	pair        [pairCount]pairAt
}

type binaryAt struct{ b0, b1, b2, c float64 }

type pairAt struct{ theta, psi float64 }

// parametersAt evaluates the parameters of the salts that m holds at t (K).
func (k *coefficients) parametersAt(t float64, m *molality) parameters {
	x := termsAt(t)
	p := parameters{k: k, temperature: t, aPhi: k.debyeHueckel.at(&x)}
	for s := range k.binary {
		if m[s] == 0 {
			continue
		}
		b := &k.binary[s]
		p.binary[s] = binaryAt{
			b0: b.b0.at(&x),
			b1: b.b1.at(&x),
			b2: b.b2.at(&x),
			// C = C-phi / (2 sqrt|z+ z-|), Pitzer (1973)
			c: b.c0.at(&x) / (2 * math.Sqrt(k.salt[s].charge)),
		}
	}
	for i := range k.pair {
		q := &k.pair[i]
		if m[q.first] == 0 || m[q.second] == 0 {
			continue
		}
		p.pair[i] = pairAt{theta: q.theta.at(&x), psi: q.psi.at(&x)}
	}
	return p
}
