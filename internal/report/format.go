package report

import "io"

// Renderer draws a document.
type Renderer func(io.Writer, *Document) error

// Format is a renderer by name.
type Format struct {
	Name string
	Draw Renderer
}

// Formats returns the formats, the default first.
func Formats() []Format {
	return []Format{
		{"text", Text},
		{"json", JSON},
		{"csv", CSV},
		{"markdown", Markdown},
	}
}
