// Package chart draws charts in characters, for a terminal of 80 columns without
// colour. It knows curves and bars, not the trade.
package chart

// Chart is curves on a grid, or bars. Its lines are no wider than 80 columns.
type Chart struct {
	Title  string
	X, Y   Axis
	Series []Series
	Labels []Label // words within the grid
	Bars   []Bar   // drawn instead of series
}

// Label is a word that begins at a place on a chart.
type Label struct {
	At   Point
	Text string // ASCII
}

// Axis names an axis and its unit. Whole keeps fractions off it; Also are numbers that it covers
// besides the points, so that a line does not lie on its end.
type Axis struct {
	Label string
	Whole bool
	Also  []float64
}

// Series is a curve, or single points, drawn with a mark. Later series are drawn over
// earlier ones.
type Series struct {
	Name   string
	Mark   byte // an ASCII character
	Points []Point
	// Line joins the points.
	Line bool
}

// Point is a place on a chart.
type Point struct{ X, Y float64 }

// Bar is a labelled amount, 0 or above.
type Bar struct {
	Label string
	Value float64
}

// signs are the characters of walls, floors and bars.
type signs struct {
	wall, corner, floor string
	bar                 []string // from an eighth, or a whole, to a whole cell
}

var (
	ascii = signs{wall: "|", corner: "+", floor: "-", bar: []string{"#"}}
	boxes = signs{wall: "│", corner: "└", floor: "─", bar: []string{"▏", "▎", "▍", "▌", "▋", "▊", "▉", "█"}}
)

// Lines draws the chart; plain uses ASCII characters alone.
func (c *Chart) Lines(plain bool) []string {
	set := &boxes
	if plain {
		set = &ascii
	}
	if len(c.Bars) > 0 {
		return c.bars(set)
	}
	return c.curves(set)
}
