package solution

import "math"

// knot is a point of a table, ordered by falling x.
type knot struct{ x, y float64 }

// monotone interpolates a monotone table without overshoot, by cubics with the slopes
// of Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304. Beyond an end it
// extrapolates the last cubic.
func monotone(points []knot, x float64) float64 {
	n := len(points)
	i := 0
	for i < n-2 && x < points[i+1].x {
		i++
	}
	a, b := points[i], points[i+1]
	h := b.x - a.x
	s := (x - a.x) / h
	da, db := slope(points, i), slope(points, i+1)
	return a.y*(1+2*s)*(1-s)*(1-s) + b.y*s*s*(3-2*s) + h*s*(1-s)*((1-s)*da-s*db)
}

// slope returns the derivative at a knot: the weighted harmonic mean of the two chords;
// at an end that of a one-sided parabola, limited so that it does not overshoot.
func slope(points []knot, i int) float64 {
	n := len(points)
	chord := func(i int) (h, d float64) {
		h = points[i+1].x - points[i].x
		return h, (points[i+1].y - points[i].y) / h
	}
	switch {
	case n == 2:
		_, d := chord(0)
		return d
	case i == 0 || i == n-1:
		near, far := 0, 1
		if i == n-1 {
			near, far = n-2, n-3
		}
		h0, d0 := chord(near)
		h1, d1 := chord(far)
		d := ((2*h0+h1)*d0 - h0*d1) / (h0 + h1)
		if d*d0 <= 0 {
			return 0
		}
		if math.Abs(d) > 3*math.Abs(d0) {
			return 3 * d0
		}
		return d
	}
	h0, d0 := chord(i - 1)
	h1, d1 := chord(i)
	if d0*d1 <= 0 {
		return 0
	}
	w0, w1 := 2*h1+h0, h1+2*h0
	return (w0 + w1) / (w0/d0 + w1/d1)
}
