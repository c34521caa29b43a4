package quantity

import "strings"

// Depth is a length inside a tank, or of a pile, in m: shown in inches or centimeters.
type Depth float64

// Inch is a unit of depths.
const Inch = Depth(inch)

// Centimeter is another.
const Centimeter = Depth(0.01)

var depthDim = dimension{
	name: "a depth", example: "42in, 3ft6in or 107cm", low: 0, high: 100,
	units: []unit{
		{names: []string{"in", `"`}, scale: float64(inch)},
		{names: []string{"ft", "'"}, scale: float64(Foot)},
		{names: []string{"cm"}, scale: 0.01},
		{names: []string{"mm"}, scale: 0.001},
		{names: []string{"m"}, scale: 1},
	},
}

// ParseDepth reads a depth like 42in, 3ft6in or 107cm; a bare number is inches.
func ParseDepth(text string) (Depth, bool, error) {
	if feet, inches, both := strings.Cut(text, "ft"); both && strings.TrimSpace(inches) != "" {
		whole, _, err1 := parseAs[Depth](&depthDim, feet+"ft")
		rest, bare, err2 := parseAs[Depth](&depthDim, strings.TrimSpace(inches))
		if err1 == nil && err2 == nil && !bare && strings.HasSuffix(strings.ToLower(inches), "in") && rest < Depth(Foot) {
			return whole + rest, false, nil
		}
	}
	return parseAs[Depth](&depthDim, text)
}

// In shows inches or centimeters.
func (d Depth) In(sys System) Shown {
	if sys == Metric {
		return metric(float64(d)*100, "cm", tenthsIfAny)
	}
	return shown(float64(d/Inch), "in", hundredthsIfAny)
}
