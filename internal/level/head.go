package level

import (
	"math"

	"brineyard/internal/root"
	"brineyard/internal/yard"
)

// head is the end of a cylinder, a solid of revolution about the cylinder's axis: from its
// full circle at 0 to its tip at depth.
type head struct {
	depth  float64
	circle float64 // radius at 0
	// radius is that at a distance from the full circle.
	radius func(x float64) float64
	// joints are where the shape of the radius changes, between 0 and depth.
	joints []float64
}

// knuckleRadius and dishRadius are those of a torispherical head, as parts of the diameter.
const knuckleRadius, dishRadius = 0.06, 1.0

// headOf makes a head of a cylinder of diameter d; a is its depth.
func headOf(kind yard.Head, d, a float64) head {
	r := d / 2
	switch {
	case kind == yard.Torispherical:
		return torispherical(d)
	case kind == yard.Flat || a == 0:
		return head{circle: r}
	case kind == yard.Conical:
		return head{depth: a, circle: r, radius: func(x float64) float64 { return r * (1 - x/a) }}
	case kind == yard.Ellipsoidal:
		return head{depth: a, circle: r, radius: func(x float64) float64 { return r * math.Sqrt(max(0, 1-x*x/(a*a))) }}
	}
	// The sphere through the circle and the tip: its center lies behind the circle by R - a.
	ball := (r*r + a*a) / (2 * a)
	return head{depth: a, circle: r, radius: func(x float64) float64 {
		z := x + ball - a
		return math.Sqrt(max(0, ball*ball-z*z))
	}}
}

// torispherical is a dish that a knuckle joins to the cylinder.
func torispherical(d float64) head {
	knuckle, dish := knuckleRadius*d, dishRadius*d
	center := d/2 - knuckle // of the knuckle's circle, from the axis
	sin := center / (dish - knuckle)
	cos := math.Sqrt(1 - sin*sin)
	depth := dish - (dish-knuckle)*cos
	joint := knuckle * cos // where the knuckle meets the dish
	return head{depth: depth, circle: d / 2, joints: []float64{joint}, radius: func(x float64) float64 {
		if x <= joint {
			return center + math.Sqrt(max(0, knuckle*knuckle-x*x))
		}
		z := dish - (depth - x)
		return math.Sqrt(max(0, dish*dish-z*z))
	}}
}

// below is the volume of the head as a bottom, tip down, below a height above its tip.
func (h head) below(height float64) float64 {
	if h.depth == 0 || height <= 0 {
		return 0
	}
	from := h.depth - height
	return h.pieces(func(x float64) float64 { r := h.radius(x); return math.Pi * r * r }, from, h.depth)
}

// lying is the volume of the head on its side below a height above the lowest point of its
// full circle: slices along the axis, each a segment of a circle.
func (h head) lying(height float64) float64 {
	if h.depth == 0 {
		return 0
	}
	slice := func(x float64) float64 {
		r := h.radius(x)
		return segment(r, height-(h.circle-r))
	}
	// Beyond the point where the level leaves the circle, a slice is full or empty.
	return h.pieces(slice, 0, h.depth, h.leaves(math.Abs(h.circle-height))...)
}

// leaves finds where the radius falls to that of the level.
func (h head) leaves(radius float64) []float64 {
	gap := func(x float64) float64 { return h.radius(x) - radius }
	at, ok := root.Between(gap, 0, h.depth, gap(0), gap(h.depth), 1e-13*h.depth)
	if !ok {
		return nil
	}
	return []float64{at}
}

// pieces integrates from joint to joint.
func (h head) pieces(f func(float64) float64, from, to float64, more ...float64) float64 {
	sum := 0.0
	for _, joint := range sorted(append(more, h.joints...), to) {
		if joint > from {
			sum += root.Integral(f, from, joint)
			from = joint
		}
	}
	return sum
}
