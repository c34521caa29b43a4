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
func scaleFor(low, high float64, whole bool) Scale {
	width := high - low
	if width <= 0 {
		width = math.Max(1, math.Abs(low))
	}
	unit := math.Pow(10, math.Floor(math.Log10(width))-1)
	for _, f := range []float64{1, 2, 5, 10, 20, 50} {
		step := f * unit
		if whole && step < 1 {
			continue
		}
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
	for _, x := range c.X.Also {
		left, right = math.Min(left, x), math.Max(right, x)
	}
	for _, y := range c.Y.Also {
		bottom, top = math.Min(bottom, y), math.Max(top, y)
	}
	return scaleFor(left, right, c.X.Whole), scaleFor(bottom, top, c.Y.Whole), true
}

// Label shows the number at the i-th step, with the decimals that tell it from its
// neighbours.
func (s Scale) Label(i int) string {
	step := (s.High - s.Low) / float64(s.Steps)
	const most = 4 // more would not fit beside the grid
	decimals := min(most, max(0, -int(math.Floor(math.Log10(step)+1e-9))))
	text := strconv.FormatFloat(s.Tick(i), 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return "0"
	}
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
