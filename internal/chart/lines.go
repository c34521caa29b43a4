package chart

import (
	"fmt"
	"math"
	"strings"
)

const (
	gridWidth  = 66
	gridHeight = 16 // rows at most between the ends of the y axis
	labelWidth = 9  // columns for the numbers of the y axis
)

// curves draws the series: title, grid with numbers, legend.
func (c *Chart) curves(set *signs) []string {
	x, y, ok := c.Scales()
	if !ok {
		return []string{c.Title}
	}
	each := max(1, gridHeight/y.Steps) // rows a step
	rows := each * y.Steps
	grid := make([][]byte, rows+1)
	for i := range grid {
		grid[i] = []byte(strings.Repeat(" ", gridWidth))
	}
	for _, s := range c.Series {
		for i, p := range s.Points {
			column, row := x.At(p.X)*(gridWidth-1), (1-y.At(p.Y))*float64(rows)
			plot(grid, column, row, s.Mark)
			if s.Line && i > 0 {
				q := s.Points[i-1]
				join(grid, x.At(q.X)*(gridWidth-1), (1-y.At(q.Y))*float64(rows), column, row, s.Mark)
			}
		}
	}
	for _, l := range c.Labels {
		for i := range len(l.Text) {
			plot(grid, x.At(l.At.X)*(gridWidth-1)+float64(i), (1-y.At(l.At.Y))*float64(rows), l.Text[i])
		}
	}
	lines := []string{c.Title, c.Y.Label}
	for i, cells := range grid {
		label := ""
		if i%each == 0 {
			label = y.Label(y.Steps - i/each)
		}
		lines = append(lines, fmt.Sprintf("%*s %s%s", labelWidth-2, label, set.wall, cells))
	}
	indent := strings.Repeat(" ", labelWidth)
	return append(lines,
		strings.Repeat(" ", labelWidth-1)+set.corner+strings.Repeat(set.floor, gridWidth),
		numbers(x), indent+c.X.Label, indent+c.legend())
}

// plot sets a mark on the grid, and leaves out one beside it.
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
func numbers(x Scale) string {
	line := []byte(strings.Repeat(" ", labelWidth+gridWidth+4))
	for i := range x.Steps + 1 {
		text := x.Label(i)
		at := labelWidth + i*(gridWidth-1)/x.Steps - len(text)/2
		copy(line[at:], text)
	}
	return string(line)
}

// legend names the series by their marks.
func (c *Chart) legend() string {
	var names []string
	for _, s := range c.Series {
		if len(s.Points) > 0 {
			names = append(names, string(s.Mark)+" "+s.Name)
		}
	}
	return strings.Join(names, "   ")
}
