package report

import "io"

// Renderer draws a document.
type Renderer func(io.Writer, *Document) error

// Formats names the renderers, the default first.
var Formats = []struct {
	Name string
	Draw Renderer
}{
	{"text", Text},
	{"json", JSON},
	{"csv", CSV},
	{"markdown", Markdown},
}
