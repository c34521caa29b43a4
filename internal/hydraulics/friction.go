// Package hydraulics tells what a pump moves through pipes and hoses, and the power that this takes.
package hydraulics

import (
	"math"

	"brineyard/internal/quantity"
)

// Gravity is standard gravity, m/s2.
const Gravity = 9.80665

// The Reynolds numbers between which a flow is neither laminar nor turbulent.
const (
	laminar   = 2000
	turbulent = 4000
)

// FrictionFactor is Darcy's, for a Reynolds number and the roughness of a pipe as a part of its diameter: 64/Re where the
// flow is laminar, the equation of Colebrook and White (C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133) where it
// is turbulent,
//
//	1/sqrt(f) = -2 log10(e/3.7 + 2.51/(Re sqrt(f))),
//
// and between the two, where nobody can tell, a straight line.
func FrictionFactor(reynolds, roughness float64) float64 {
	switch {
	case reynolds <= 0:
		return 0
	case reynolds < laminar:
		return 64 / reynolds
	case reynolds < turbulent:
		const low = 64.0 / laminar
		part := (reynolds - laminar) / (turbulent - laminar)
		return low + part*(colebrook(turbulent, roughness)-low)
	}
	return colebrook(reynolds, roughness)
}

// colebrook solves for x = 1/sqrt(f) by Newton's steps, which are few: the equation is nearly straight in x.
func colebrook(reynolds, roughness float64) float64 {
	a, b := roughness/3.7, 2.51/reynolds
	x := -2 * math.Log10(a+5.74/math.Pow(reynolds, 0.9)) // Swamee and Jain (1976) start it
	for range 20 {
		inner := a + b*x
		step := (x + 2*math.Log10(inner)) / (1 + 2*b/(inner*math.Ln10))
		x -= step
		if math.Abs(step) < 1e-14*x {
			break
		}
	}
	return 1 / (x * x)
}

// Fluid is what is pumped.
type Fluid struct {
	Density   quantity.Density
	Viscosity Viscosity
}

// Pipe is a length of pipe or hose with what sits in it.
type Pipe struct {
	Length    quantity.Length
	Diameter  quantity.Depth  // of the bore
	Roughness quantity.Length // height of the wall's
	// Fittings is the sum of the loss coefficients of bends, valves, entry and exit.
	Fittings float64
}

// The heights of walls' roughness. Source: the tables of friction in any handbook of hydraulics (drawn tubing, commercial
// steel); a plastic pipe and a rubber hose count as drawn.
const (
	Smooth = quantity.Length(1.5e-6)
	Steel  = quantity.Length(4.5e-5)
)

// Loss is the head (m of the liquid) that a flow loses in a pipe, by Darcy and Weisbach:
//
//	h = (f L/D + K) v^2 / 2g
func (p Pipe) Loss(q quantity.Flow, f Fluid) float64 {
	d := float64(p.Diameter)
	v := float64(q) / (math.Pi / 4 * d * d)
	friction := FrictionFactor(float64(f.Density)*v*d/float64(f.Viscosity), float64(p.Roughness)/d)
	return (friction*float64(p.Length)/d + p.Fittings) * v * v / 2 / Gravity
}
