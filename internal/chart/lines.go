package chart

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

const (
	gridWidth  = 66
	gridHeight = 16 // rows at most between the ends of the y axis
	labelWidth = 9  // columns for the numbers of the y axis
)

// scale is an axis with round ends and round steps between.
type scale struct {
	low, high float64
	steps     int
}

// scaleFor covers an interval with four to eight steps of 1, 2 or 5 times a power
// of ten.
func scaleFor(low, high float64) scale {
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
			return scale{a, b, n}
		}
	}
	return scale{low, low + width, 1}
}

// at returns the place of x between the ends, 0 to 1.
func (s scale) at(x float64) float64 { return (x - s.low) / (s.high - s.low) }

// tick returns the number at the i-th step.
func (s scale) tick(i int) float64 { return s.low + (s.high-s.low)*float64(i)/float64(s.steps) }

// curves draws the series: title, grid with numbers, legend.
func (c *Chart) curves(set *signs) []string {
	x, y, ok := c.scales()
	if !ok {
		return []string{c.Title}
	}
	each := max(1, gridHeight/y.steps) // rows a step
	rows := each * y.steps
	grid := make([][]byte, rows+1)
	for i := range grid {
		grid[i] = []byte(strings.Repeat(" ", gridWidth))
	}
	for _, s := range c.Series {
		for i, p := range s.Points {
			column, row := x.at(p.X)*(gridWidth-1), (1-y.at(p.Y))*float64(rows)
			plot(grid, column, row, s.Mark)
			if s.Line && i > 0 {
				q := s.Points[i-1]
				join(grid, x.at(q.X)*(gridWidth-1), (1-y.at(q.Y))*float64(rows), column, row, s.Mark)
			}
		}
	}
	lines := []string{c.Title, c.Y.Label}
	for i, cells := range grid {
		label := ""
		if i%each == 0 {
			label = trimNumber(y.tick(y.steps - i/each))
		}
		lines = append(lines, fmt.Sprintf("%*s %s%s", labelWidth-2, label, set.wall, cells))
	}
	indent := strings.Repeat(" ", labelWidth)
	return append(lines,
		strings.Repeat(" ", labelWidth-1)+set.corner+strings.Repeat(set.floor, gridWidth),
		numbers(x), indent+c.X.Label, indent+c.legend())
}

// scales covers all points.
func (c *Chart) scales() (x, y scale, ok bool) {
	left, bottom := math.Inf(1), math.Inf(1)
	right, top := math.Inf(-1), math.Inf(-1)
	for _, s := range c.Series {
		for _, p := range s.Points {
			left, right = math.Min(left, p.X), math.Max(right, p.X)
			bottom, top = math.Min(bottom, p.Y), math.Max(top, p.Y)
		}
	}
	if !(left <= right) {
		return scale{}, scale{}, false
	}
	return scaleFor(left, right), scaleFor(bottom, top), true
}

// plot sets a mark where it lies on the grid.
func plot(grid [][]byte, x, y float64, mark byte) {
	i, j := int(math.Round(y)), int(math.Round(x))
	if i >= 0 && i < len(grid) && j >= 0 && j < len(grid[i]) {
		grid[i][j] = mark
	}
}

// join draws a straight line of marks.
func join(grid [][]byte, x0, y0, x1, y1 float64, mark byte) {
	steps := int(math.Ceil(math.Max(math.Abs(x1-x0), math.Abs(y1-y0))))
	for k := 1; k < steps; k++ {
		f := float64(k) / float64(steps)
		plot(grid, x0+f*(x1-x0), y0+f*(y1-y0), mark)
	}
}

// numbers is the line of numbers below the x axis.
func numbers(x scale) string {
	line := []byte(strings.Repeat(" ", labelWidth+gridWidth+4))
	for i := range x.steps + 1 {
		text := trimNumber(x.tick(i))
		at := labelWidth + i*(gridWidth-1)/x.steps - len(text)/2
		copy(line[at:], text)
	}
	return string(line)
}

// legend tells the marks.
func (c *Chart) legend() string {
	var names []string
	for _, s := range c.Series {
		if len(s.Points) > 0 {
			names = append(names, string(s.Mark)+" "+s.Name)
		}
	}
	return strings.Join(names, "   ")
}

func trimNumber(x float64) string {
	text := strconv.FormatFloat(x, 'f', 1, 64)
	if text == "-0.0" {
		text = "0"
	}
	return strings.TrimSuffix(text, ".0")
}
