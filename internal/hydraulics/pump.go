package hydraulics

import (
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/root"
)

// Point is a flow with a head: the height of the liquid's own column (m) that a pump gives or a way takes.
type Point struct {
	Flow quantity.Flow
	Head quantity.Length
}

// Way is what a liquid is pumped through, and up.
type Way struct {
	Pipes []Pipe
	Lift  quantity.Length // from the level that it is drawn from; below 0 for a tank that stands lower
}

// Takes is the head that a flow takes.
func (w Way) Takes(q quantity.Flow, f Fluid) quantity.Length {
	head := w.Lift
	for _, p := range w.Pipes {
		head += quantity.Length(p.Loss(q, f))
	}
	return head
}

// FieldCurve names a pump's curve in refusals.
const FieldCurve = "curve"

// Operate finds where a pump of a curve (two points or more, flow rising and head falling, straight between them) meets
// a way. A way so easy that it would pass more than the curve knows gets the curve's last flow, and beyond is true.
// Errors: fault.InputError for a curve that is none, and a way that the pump does not rise to.
func Operate(curve []Point, w Way, f Fluid) (at Point, beyond bool, err error) {
	if err := CheckCurve(curve); err != nil {
		return Point{}, false, err
	}
	last := curve[len(curve)-1]
	gap := func(q float64) float64 {
		return float64(HeadAt(curve, quantity.Flow(q)) - w.Takes(quantity.Flow(q), f))
	}
	low := float64(curve[0].Flow)
	switch {
	case gap(low) <= 0:
		return Point{}, false, fault.Input(FieldCurve, "the pump does not rise to that: it gives %v, and the lift alone is %v; allowed: a lower place",
			quantity.Width(curve[0].Head), quantity.Width(w.Lift))
	case gap(float64(last.Flow)) >= 0:
		return Point{last.Flow, w.Takes(last.Flow, f)}, true, nil
	}
	q, _ := root.Between(gap, low, float64(last.Flow), gap(low), gap(float64(last.Flow)), 1e-13*float64(last.Flow))
	return Point{quantity.Flow(q), HeadAt(curve, quantity.Flow(q))}, false, nil
}

// CheckCurve refuses a curve that is none: fewer than two points, flows that do not rise, or heads that do.
func CheckCurve(curve []Point) error {
	if len(curve) < 2 {
		return fault.Input(FieldCurve, "one point tells no curve; allowed: two or more, the flow rising and the head falling")
	}
	for i, p := range curve {
		if p.Flow < 0 || p.Head < 0 || i > 0 && (p.Flow <= curve[i-1].Flow || p.Head > curve[i-1].Head) {
			return fault.Input(FieldCurve, "point %v is out of order; allowed: the flow rising and the head falling from each to the next", quantity.Count(i+1))
		}
	}
	return nil
}

// HeadAt is the head that a curve has at a flow; beyond its ends it goes straight on.
func HeadAt(curve []Point, q quantity.Flow) quantity.Length {
	for i := 1; i < len(curve); i++ {
		if a, b := curve[i-1], curve[i]; q <= b.Flow || i == len(curve)-1 {
			return a.Head + (b.Head-a.Head)*quantity.Length((q-a.Flow)/(b.Flow-a.Flow))
		}
	}
	return 0
}

// Power is what a pump takes from its shaft (W): density, gravity, flow and head over its efficiency.
func Power(p Point, rho quantity.Density, efficiency quantity.Fraction) quantity.Power {
	return quantity.Power(float64(rho) * Gravity * float64(p.Flow) * float64(p.Head) / float64(efficiency))
}
