package solution

import "math"

// anchorPoint is the mass fraction of NaCl at saturation.
type anchorPoint struct{ celsius, strength float64 }

// anchorPoints returns the solubility of NaCl from the eutectic to the transition of
// hydrohalite to halite, Salt Institute, "Chemical and physical properties"
// (trade association table).
func anchorPoints() [7]anchorPoint {
	return [7]anchorPoint{
		{-21.11, 0.2331},
		{-17.78, 0.2383},
		{-12.22, 0.2470},
		{-6.67, 0.2553},
		{-1.1, 0.2616},
		{0, 0.2629},
		{0.1, 0.2631},
	}
}

// anchorCurve is what the anchor adds to log10 K of hydrohalite: a smooth curve over the branch on which
// hydrohalite is the solid, from the eutectic (low) to the transition to halite (high), both in K. With
// x = t - low it is
//
//	c0 + c2 x^2 + c3 x^3 + c4 x^4
//
// It has no slope at the eutectic, below which it is held: there hydrohalite falls out of blends alone. It is held
// above the transition too, where halite is the solid.
type anchorCurve struct {
	low, high  float64
	c0         float64
	c2, c3, c4 float64
}

// anchorTerms are how many coefficients are fitted, besides c0, which the transition settles.
const anchorTerms = 3

// anchorCurve fits the curve to what the published model lacks at the anchor points: by least squares, each
// point weighed by what the rounding of its strength (0.01 %) makes of log10 K, and through the transition, at which
// hydrohalite and halite are both saturated.
func (k *coefficients) anchorCurve() *anchorCurve {
	n := len(k.anchor) - 1
	a := &anchorCurve{low: zeroCelsius + k.anchor[0].celsius, high: zeroCelsius + k.anchor[n].celsius}
	atEnd, _ := k.lacking(k.anchor[n])
	end := a.terms(a.high)
	var normal square
	var right column
	for _, p := range k.anchor[:n] {
		offset, perRounding := k.lacking(p)
		basis := a.terms(zeroCelsius + p.celsius)
		weight := 1 / (perRounding * perRounding)
		for i := range anchorTerms {
			for j := range anchorTerms {
				normal[i][j] += weight * (basis[i] - end[i]) * (basis[j] - end[j])
			}
			right[i] += weight * (basis[i] - end[i]) * (offset - atEnd)
		}
	}
	if !solve(&normal, &right, anchorTerms) {
		panic("the anchor points settle no curve") // there are more of them than terms
	}
	a.c2, a.c3, a.c4 = right[0], right[1], right[2]
	a.c0 = atEnd - a.c2*end[0] - a.c3*end[1] - a.c4*end[2]
	return a
}

// lacking returns the published model's saturation index at a point, which its log10 K lacks there, and what
// 0.01 % of strength makes of it.
func (k *coefficients) lacking(p anchorPoint) (offset, perRounding float64) {
	const rounding = 1e-4
	m, t := k.published(), zeroCelsius+p.celsius
	offset, err := m.SaturationIndex(Hydrohalite, Brine(p.strength), t)
	beside, err2 := m.SaturationIndex(Hydrohalite, Brine(p.strength+rounding), t)
	if err != nil || err2 != nil {
		panic("an anchor point lies outside the model")
	}
	return offset, math.Abs(beside - offset)
}

// terms are x^2, x^3 and x^4 at t (K).
func (a *anchorCurve) terms(t float64) [anchorTerms]float64 {
	x := math.Min(math.Max(t, a.low), a.high) - a.low
	return [anchorTerms]float64{x * x, x * x * x, x * x * x * x}
}

// at returns what is added to log10 K at t (K).
func (a *anchorCurve) at(t float64) float64 {
	if a == nil {
		return 0
	}
	x := a.terms(t)
	return a.c0 + a.c2*x[0] + a.c3*x[1] + a.c4*x[2]
}

// slope returns its derivative at t (K), 1/K.
func (a *anchorCurve) slope(t float64) float64 {
	if a == nil || t <= a.low || t >= a.high {
		return 0
	}
	x := t - a.low
	return 2*a.c2*x + 3*a.c3*x*x + 4*a.c4*x*x*x
}
