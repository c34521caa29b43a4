package picture

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image/color"
	"image/png"
	"io"
	"testing"

	"brineyard/internal/chart"

	"github.com/stretchr/testify/require"
)

var curves = chart.Chart{
	Title: "Strength", X: chart.Axis{Label: "batch"}, Y: chart.Axis{Label: "% salt"},
	Series: []chart.Series{
		{Name: "target", Line: true, Points: []chart.Point{{X: 1, Y: 23.3}, {X: 5, Y: 23.3}}},
		{Name: "empty"},
		{Name: "batch", Points: []chart.Point{{X: 1, Y: 23.1}, {X: 5, Y: 23.6}}},
	},
}

var bars = chart.Chart{Title: "Made & laid", Y: chart.Axis{Label: "gal"}, Bars: []chart.Bar{{Label: "Nov", Value: 4380}, {Label: "Dec", Value: 0}}}

// An SVG is well-formed, and holds every word of the chart but the name of an empty
// series.
func TestSVG(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, SVG(&out, []chart.Chart{curves, bars}))
	words := map[string]bool{}
	d := xml.NewDecoder(bytes.NewReader(out.Bytes()))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		if text, ok := token.(xml.CharData); ok {
			words[string(bytes.TrimSpace(text))] = true
		}
	}
	for _, w := range []string{"Strength", "batch", "% salt", "target", "Made & laid", "gal", "Nov", "Dec", "23.6", "4000"} {
		require.True(t, words[w], "%s: %v", w, words)
	}
	require.False(t, words["empty"])
}

// A PNG has two charts below each other, drawn in black on white.
func TestPNG(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, PNG(&out, []chart.Chart{curves, bars}))
	image, err := png.Decode(&out)
	require.NoError(t, err)
	size := image.Bounds().Size()
	require.Equal(t, 1080, size.X)
	require.Equal(t, 2*600, size.Y)
	dark := func(from, to int) (n int) {
		for y := from; y < to; y++ {
			for x := range size.X {
				if g := color.GrayModel.Convert(image.At(x, y)).(color.Gray); g.Y < 100 {
					n++
				}
			}
		}
		return n
	}
	require.Greater(t, dark(0, size.Y/2), 3000)
	require.Greater(t, dark(size.Y/2, size.Y), 3000)
	require.Equal(t, color.Gray{Y: 255}, color.GrayModel.Convert(image.At(2, 2)))
}

func TestNothingToDraw(t *testing.T) {
	require.ErrorIs(t, SVG(io.Discard, nil), ErrNone)
	require.ErrorIs(t, PNG(io.Discard, nil), ErrNone)
}
