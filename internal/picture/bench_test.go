package picture

import (
	"io"
	"testing"

	"brineyard/internal/chart"
)

// BenchmarkPictures draws the same chart both ways; a PNG in multiples of an SVG.
func BenchmarkPictures(b *testing.B) {
	for name, draw := range map[string]func(io.Writer, []chart.Chart) error{"svg": SVG, "png": PNG} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := draw(io.Discard, []chart.Chart{curves}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
