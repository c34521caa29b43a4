// Package level works out what stands in a tank from the depth of its liquid, and what a pile
// weighs from its height and width.
//
// Source: D. Jones, "Computing Fluid Tank Volumes, Part II", Chemical Processing (2009), for
// the shapes; the volume of a lying head is integrated here instead of taken from his formulas.
package level

import (
	"math"

	"brineyard/internal/yard"
)

// inside is the inside of a tank in m and m3.
type inside struct {
	volume func(h float64) float64 // below a height above the lowest point, from 0 to top
	top    float64                 // +Inf where it is not known
}

// insideOf makes the inside of a shape that Check has passed.
func insideOf(s yard.Shape) inside {
	d, length, width := float64(s.Diameter), float64(s.Length), float64(s.Width)
	head := headOf(s.Heads, d, float64(s.HeadDepth))
	switch s.Form {
	case yard.Box:
		return inside{func(h float64) float64 { return length * width * h }, math.Inf(1)}
	case yard.Upright:
		top := math.Inf(1)
		if length > 0 {
			top = head.depth + length
		}
		return inside{func(h float64) float64 {
			return head.below(min(h, head.depth)) + math.Pi/4*d*d*max(0, h-head.depth)
		}, top}
	case yard.Lying:
		return inside{func(h float64) float64 {
			h = min(max(h, 0), d)
			return length*segment(d/2, h) + 2*head.lying(h)
		}, d}
	}
	return marked(s.Marks)
}

// segment is the area of a circle of radius r below a height h above its lowest point.
func segment(r, h float64) float64 {
	switch {
	case h <= 0:
		return 0
	case h >= 2*r:
		return math.Pi * r * r
	}
	y := r - h
	return r*r*math.Acos(y/r) - y*math.Sqrt(max(0, r*r-y*y))
}

// marked goes straight from mark to mark, the first from an empty tank.
func marked(marks []yard.Mark) inside {
	last := marks[len(marks)-1]
	return inside{func(h float64) float64 {
		h0, v0 := 0.0, 0.0
		for _, m := range marks {
			h1, v1 := float64(m.Depth), float64(m.Volume)
			if h <= h1 {
				if h1 == h0 {
					return v1
				}
				return v0 + (v1-v0)*(h-h0)/(h1-h0)
			}
			h0, v0 = h1, v1
		}
		return v0
	}, float64(last.Depth)}
}
