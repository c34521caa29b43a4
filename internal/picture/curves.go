package picture

import (
	"image/color"

	"brineyard/internal/chart"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Curves differ by their dashes and points by their shapes, so that a printer without colour
// will do.
var (
	dashes = [][]vg.Length{nil, {vg.Points(10), vg.Points(4)}, {vg.Points(2), vg.Points(3)}, {vg.Points(10), vg.Points(3), vg.Points(2), vg.Points(3)}}
	shapes = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}, draw.RingGlyph{}}
)

// curves draws the series in their frame, and their legend below it.
func (p *page) curves() {
	x, y, ok := p.chart.Scales()
	if !ok {
		return
	}
	p.upright(y)
	p.level(x)
	place := func(q chart.Point) vg.Point {
		return vg.Point{
			X: p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*vg.Length(x.At(q.X)),
			Y: p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(y.At(q.Y)),
		}
	}
	for _, l := range p.chart.Labels {
		p.words(l.Text, numbersSize, place(l.At), draw.XLeft, draw.YCenter)
	}
	shown := 0
	for i, s := range p.chart.Series {
		if len(s.Points) == 0 {
			continue
		}
		var points []vg.Point
		for _, q := range s.Points {
			points = append(points, place(q))
		}
		p.series(s.Line, i, points)
		p.legend(s, i, shown)
		shown++
	}
}

// series draws a curve or dots.
func (p *page) series(joined bool, i int, points []vg.Point) {
	if joined {
		p.StrokeLines(draw.LineStyle{Color: color.Black, Width: vg.Points(2.2), Dashes: dashes[i%len(dashes)]}, points)
		return
	}
	for _, q := range points {
		p.DrawGlyph(draw.GlyphStyle{Color: color.Black, Radius: vg.Points(4.5), Shape: shapes[i%len(shapes)]}, q)
	}
}

// The legend has two names a line, each with room for a font half as wide again.
const (
	legendColumns = 2
	legendLine    = 0.26 * vg.Inch
)

// legendLines are the lines that the names of a chart's series take.
func legendLines(c *chart.Chart) int {
	n := 0
	for _, s := range c.Series {
		if len(s.Points) > 0 {
			n++
		}
	}
	return (n + legendColumns - 1) / legendColumns
}

// legend shows a piece of the i-th series with its name, as the nth of the legend.
func (p *page) legend(s chart.Series, i, nth int) {
	const piece = 30
	at := vg.Point{
		X: p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)/legendColumns*vg.Length(nth%legendColumns),
		Y: p.frame.Min.Y - 0.6*vg.Inch - legendLine*(vg.Length(nth/legendColumns)+0.3),
	}
	if s.Line {
		p.series(true, i, []vg.Point{at, {X: at.X + piece, Y: at.Y}})
	} else {
		p.series(false, i, []vg.Point{{X: at.X + piece/2, Y: at.Y}})
	}
	p.words(s.Name, numbersSize, vg.Point{X: at.X + piece + 6, Y: at.Y}, draw.XLeft, draw.YCenter)
}

// bars draws a bar for each amount, from nothing up.
func (p *page) bars() {
	top := 0.0
	for _, b := range p.chart.Bars {
		top = max(top, b.Value)
	}
	all := chart.Chart{Series: []chart.Series{{Points: []chart.Point{{X: 0, Y: 0}, {X: 1, Y: max(top, 1)}}}}}
	_, y, _ := all.Scales()
	p.upright(y)
	each := (p.frame.Max.X - p.frame.Min.X) / vg.Length(len(p.chart.Bars))
	for i, b := range p.chart.Bars {
		left := p.frame.Min.X + each*vg.Length(i)
		high := p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(y.At(b.Value))
		p.FillPolygon(color.Gray{Y: 90}, []vg.Point{
			{X: left + 0.15*each, Y: p.frame.Min.Y}, {X: left + 0.85*each, Y: p.frame.Min.Y}, {X: left + 0.85*each, Y: high}, {X: left + 0.15*each, Y: high},
		})
		p.words(b.Label, numbersSize, vg.Point{X: left + each/2, Y: p.frame.Min.Y - 6}, draw.XCenter, draw.YTop)
	}
}
