// Package sure says how well something is known: errors that are spread evenly between two ends,
// like that of a mark to which a glass is read, and what they come to together.
package sure

import (
	"math"
	"slices"

	"brineyard/internal/root"
)

// Part is one error, independent of the others: the truth lies anywhere within Half of the value,
// spread evenly. Half is in the unit of what is measured and not below 0.
type Part struct {
	Name string
	Half float64
}

// Budget is what makes a value unsure.
type Budget struct {
	Parts []Part
	// Mixing is the half-width of the 95 % range that the scatter of samples leaves to their mean.
	Mixing float64
}

// Exact reports whether nothing makes the value unsure.
func (b Budget) Exact() bool { return b.Half() == 0 }

// Half returns the half-width of the range that holds the truth 95 times in 100. Even spreads are
// convolved; the scatter of samples, which has no ends, is added by squares.
func (b Budget) Half() float64 {
	halves := make([]float64, len(b.Parts))
	for i, p := range b.Parts {
		halves[i] = p.Half
	}
	return math.Hypot(Half(halves...), b.Mixing)
}

// Deviation returns the standard deviation of the value.
func (b Budget) Deviation() float64 {
	const normal = 1.96 // standard deviations that hold a normal error 95 times in 100
	squares := b.Mixing * b.Mixing / (normal * normal)
	for _, p := range b.Parts {
		squares += p.Half * p.Half / 3
	}
	return math.Sqrt(squares)
}

// Of returns the half-width of a part by its name; 0 where there is none.
func (b Budget) Of(name string) float64 {
	for _, p := range b.Parts {
		if p.Name == name {
			return p.Half
		}
	}
	return 0
}

// Times returns the budget of the value times a factor, whatever its sign.
func (b Budget) Times(factor float64) Budget {
	factor = math.Abs(factor)
	out := Budget{Mixing: b.Mixing * factor}
	for _, p := range b.Parts {
		out.Parts = append(out.Parts, Part{p.Name, p.Half * factor})
	}
	return out
}

// And returns the budget with more parts, those of nothing left out.
func (b Budget) And(parts ...Part) Budget {
	b.Parts = slices.Clone(b.Parts)
	for _, p := range parts {
		if p.Half > 0 {
			b.Parts = append(b.Parts, p)
		}
	}
	return b
}

// Inside is the part of all cases that a stated range holds.
const Inside = 0.95

// small is the part of the widest spread below which another one is left out: it moves the sum by
// less than a millionth.
const small = 1e-3

// Half returns the half-width that holds the sum of independent even spreads 95 times in 100. One
// alone gives 95 % of itself.
//
// The density of the sum is that of a product of sinc functions; its integral is, by inclusion and
// exclusion over the corners (Feller, An Introduction to Probability Theory II, 2nd ed., I.9, the sum
// of uniform variables), a polynomial of each piece.
func Half(halves ...float64) float64 {
	h := slices.Clone(halves)
	slices.Sort(h)
	slices.Reverse(h)
	for len(h) > 0 && !(h[len(h)-1] > small*h[0]) {
		h = h[:len(h)-1]
	}
	if len(h) == 0 {
		return 0
	}
	switch {
	case len(h) == 1:
		return Inside * h[0]
	case len(h) == 2 && h[0]+h[1]-math.Sqrt(4*(1-Inside)*h[0]*h[1]) >= h[0]-h[1]:
		return h[0] + h[1] - math.Sqrt(4*(1-Inside)*h[0]*h[1]) // on the slope of the trapezoid
	case len(h) == 2:
		return Inside * h[0] // on its top
	}
	whole := 0.0
	for _, x := range h {
		whole += x
	}
	short := func(x float64) float64 { return beyond(h, x) - (1-Inside)/2 }
	at, ok := root.Between(short, 0, whole, short(0), short(whole), 1e-12*whole)
	if !ok {
		return Inside * whole
	}
	return at
}

// beyond is the chance that the sum of even spreads lies above x.
func beyond(h []float64, x float64) float64 {
	n := len(h)
	sum, scale := 0.0, 1.0
	for _, half := range h {
		scale *= 2 * half
	}
	for k := 2; k <= n; k++ {
		scale *= float64(k)
	}
	for corner := range 1 << n {
		at, sign := -x, 1.0
		for i, half := range h {
			if corner&(1<<i) != 0 {
				at, sign = at-half, -sign
			} else {
				at += half
			}
		}
		if at > 0 {
			sum += sign * math.Pow(at, float64(n))
		}
	}
	return sum / scale
}
