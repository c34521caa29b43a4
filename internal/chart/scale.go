package chart

import (
	"math"
	"strconv"
	"strings"
)

// Scale is an axis with round ends and round steps between.
type Scale struct {
	Low, High float64
	Steps     int
}

// scaleFor covers an interval with four to eight steps of 1, 2 or 5 times a power
// of ten.
func scaleFor(low, high float64) Scale {
	width := high - low
	if width <= 0 {
		width = math.Max(1, math.Abs(low))
	}
	unit := math.Pow(10, math.Floor(math.Log10(width))-1)
	for _, f := range []float64{1, 2, 5, 10, 20, 50} {
		step := f * unit
		a, b := step*math.Floor(low/step+1e-9), step*math.Ceil(high/step-1e-9)
		if a == b {
			b += step
		}
		if n := int(math.Round((b - a) / step)); n <= 8 {
			return Scale{a, b, n}
		}
	}
	return Scale{low, low + width, 1}
}

// At returns the place of x between the ends, 0 to 1.
func (s Scale) At(x float64) float64 { return (x - s.Low) / (s.High - s.Low) }

// Tick returns the number at the i-th step.
func (s Scale) Tick(i int) float64 { return s.Low + (s.High-s.Low)*float64(i)/float64(s.Steps) }

// Scales covers all points.
func (c *Chart) Scales() (x, y Scale, ok bool) {
	left, bottom := math.Inf(1), math.Inf(1)
	right, top := math.Inf(-1), math.Inf(-1)
	for _, s := range c.Series {
		for _, p := range s.Points {
			left, right = math.Min(left, p.X), math.Max(right, p.X)
			bottom, top = math.Min(bottom, p.Y), math.Max(top, p.Y)
		}
	}
	if !(left <= right) {
		return Scale{}, Scale{}, false
	}
	return scaleFor(left, right), scaleFor(bottom, top), true
}

// Number shows a number of an axis.
func Number(x float64) string {
	text := strconv.FormatFloat(x, 'f', 1, 64)
	if text == "-0.0" {
		text = "0"
	}
	return strings.TrimSuffix(text, ".0")
}
