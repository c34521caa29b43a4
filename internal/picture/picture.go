// Package picture draws charts as SVG or PNG, black on white, for a wall or a report.
//
// It draws with the canvases of gonum's plot and with axes of its own: the plot package
// itself would add a millisecond to the start of every command.
package picture

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	imagedraw "image/draw"
	"image/png"
	"io"

	"brineyard/internal/chart"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The size of one chart, which is that of a sheet's width so that its words stay as large as they are
// here; several stand below each other.
const (
	width  = 7.2 * vg.Inch
	height = 4 * vg.Inch
)

// SVG writes charts as a scalable picture.
func SVG(w io.Writer, charts []chart.Chart) error {
	if len(charts) == 0 {
		return ErrNone
	}
	c := vgsvg.New(width, height*vg.Length(len(charts)))
	return drawAll(w, c, fallbackSVG{c}, charts)
}

// fallbackSVG names the fonts that serve where the picture's own is not there; its words have room for wider ones.
type fallbackSVG struct{ *vgsvg.Canvas }

// WriteTo writes the SVG.
func (c fallbackSVG) WriteTo(w io.Writer) (int64, error) {
	var out bytes.Buffer
	if _, err := c.Canvas.WriteTo(&out); err != nil {
		return 0, err
	}
	n, err := w.Write(bytes.ReplaceAll(out.Bytes(), []byte("font-family:Liberation Sans;"), []byte("font-family:'Liberation Sans',Arial,Helvetica,sans-serif;")))
	return int64(n), err
}

// PNG writes charts in dots, 150 to an inch.
func PNG(w io.Writer, charts []chart.Chart) error {
	if len(charts) == 0 {
		return ErrNone
	}
	c := vgimg.NewWith(vgimg.UseWH(width, height*vg.Length(len(charts))), vgimg.UseDPI(150), vgimg.UseBackgroundColor(color.White))
	return drawAll(w, c, greyPNG{c}, charts)
}

// greyPNG writes a canvas in shades of grey, which is all that is drawn here: a quarter of the dots'
// bytes to pack.
type greyPNG struct{ *vgimg.Canvas }

// WriteTo writes the PNG.
func (g greyPNG) WriteTo(w io.Writer) (int64, error) {
	grey := image.NewGray(g.Image().Bounds())
	if from, ok := g.Image().(*image.RGBA); ok && from.Stride == 4*grey.Stride {
		for i := range grey.Pix {
			grey.Pix[i] = from.Pix[4*i] // red, which is as much as green and blue
		}
	} else {
		imagedraw.Draw(grey, grey.Bounds(), g.Image(), image.Point{}, imagedraw.Src)
	}
	var out bytes.Buffer
	pack := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := pack.Encode(&out, grey); err != nil {
		return 0, err
	}
	return out.WriteTo(w)
}

// ErrNone is returned where there is nothing to draw.
var ErrNone = errors.New("no chart to draw")

// drawAll draws on a canvas and writes it out whole, or not at all.
func drawAll(w io.Writer, canvas vg.CanvasSizer, out io.WriterTo, charts []chart.Chart) error {
	all := draw.New(canvas)
	face, err := opentype.Parse(liberationsansregular.TTF)
	if err != nil {
		return err
	}
	fonts := text.Plain{Fonts: font.NewCache(font.Collection{{Font: font.Font{Typeface: "Liberation", Variant: "Sans"}, Face: face}})}
	for i := range charts {
		top := all.Max.Y - height*vg.Length(i)
		p := &page{Canvas: all, fonts: fonts, chart: &charts[i], top: top}
		p.frame = vg.Rectangle{
			Min: vg.Point{X: all.Min.X + 0.8*vg.Inch, Y: top - height + 0.65*vg.Inch + legendLine*vg.Length(legendLines(&charts[i]))},
			Max: vg.Point{X: all.Max.X - 0.25*vg.Inch, Y: top - 0.65*vg.Inch},
		}
		p.draw()
	}
	var whole bytes.Buffer
	if _, err := out.WriteTo(&whole); err != nil {
		return err
	}
	_, err = w.Write(whole.Bytes())
	return err
}

// page is one chart on the canvas.
type page struct {
	draw.Canvas
	fonts text.Handler
	chart *chart.Chart
	top   vg.Length
	frame vg.Rectangle // within the axes
}

func (p *page) draw() {
	p.words(p.chart.Title, 18, vg.Point{X: (p.frame.Min.X + p.frame.Max.X) / 2, Y: p.top - 0.25*vg.Inch}, draw.XCenter, draw.YCenter)
	if len(p.chart.Bars) > 0 {
		p.bars()
		return
	}
	p.curves()
}

// words writes text at a point of it.
func (p *page) words(s string, size font.Length, at vg.Point, x draw.XAlignment, y draw.YAlignment) {
	style := p.style(size)
	style.XAlign, style.YAlign = x, y
	p.FillText(style, at, s)
}

func (p *page) style(size font.Length) draw.TextStyle {
	return draw.TextStyle{Color: color.Black, Font: font.Font{Typeface: "Liberation", Variant: "Sans", Size: size}, Handler: p.fonts}
}

// line draws a straight line.
func (p *page) line(style draw.LineStyle, from, to vg.Point) {
	p.StrokeLine2(style, from.X, from.Y, to.X, to.Y)
}

var (
	solid = draw.LineStyle{Color: color.Black, Width: vg.Points(1)}
	faint = draw.LineStyle{Color: color.Gray{Y: 190}, Width: vg.Points(0.5)}
)

// numbersSize is that of the numbers on axes, in points.
const numbersSize = 14

// upright draws the y axis with its numbers, and a faint line for each.
func (p *page) upright(y chart.Scale) {
	for i := range y.Steps + 1 {
		at := p.frame.Min.Y + (p.frame.Max.Y-p.frame.Min.Y)*vg.Length(i)/vg.Length(y.Steps)
		p.line(faint, vg.Point{X: p.frame.Min.X, Y: at}, vg.Point{X: p.frame.Max.X, Y: at})
		p.words(y.Label(i), numbersSize, vg.Point{X: p.frame.Min.X - 6, Y: at}, draw.XRight, draw.YCenter)
	}
	p.words(p.chart.Y.Label, numbersSize+1, vg.Point{X: p.frame.Min.X - 6, Y: p.frame.Max.Y + 12}, draw.XRight, draw.YBottom)
	p.line(solid, p.frame.Min, vg.Point{X: p.frame.Min.X, Y: p.frame.Max.Y})
	p.line(solid, p.frame.Min, vg.Point{X: p.frame.Max.X, Y: p.frame.Min.Y})
}

// level draws the x axis likewise.
func (p *page) level(x chart.Scale) {
	for i := range x.Steps + 1 {
		at := p.frame.Min.X + (p.frame.Max.X-p.frame.Min.X)*vg.Length(i)/vg.Length(x.Steps)
		p.line(faint, vg.Point{X: at, Y: p.frame.Min.Y}, vg.Point{X: at, Y: p.frame.Max.Y})
		p.words(x.Label(i), numbersSize, vg.Point{X: at, Y: p.frame.Min.Y - 6}, draw.XCenter, draw.YTop)
	}
	p.words(p.chart.X.Label, numbersSize+1, vg.Point{X: (p.frame.Min.X + p.frame.Max.X) / 2, Y: p.frame.Min.Y - 0.3*vg.Inch}, draw.XCenter, draw.YTop)
}
