package yard

import (
	"cmp"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// Form is the shape of a tank.
type Form int

// The forms.
const (
	Unshaped   Form = iota // not known
	Upright                // a cylinder on a bottom
	Lying                  // a cylinder between two heads
	Box                    // walls upright, floor level
	MarkedTank             // measured: a volume at each of some depths
)

// Head is the end of a cylinder.
type Head int

// The heads.
const (
	Flat Head = iota
	Conical
	Ellipsoidal
	Spherical
	Torispherical // a dish of radius D with a knuckle of radius 0.06 D
)

// Mark is a volume at a depth of a measured tank.
type Mark struct {
	Depth  quantity.Depth
	Volume quantity.Volume
}

// Shape is the inside of a tank.
type Shape struct {
	Form      Form
	Diameter  quantity.Depth
	Length    quantity.Depth // of a lying cylinder between its heads, of a box; height of an upright one's wall, 0 where not known
	Width     quantity.Depth // of a box
	Heads     Head           // both of a lying cylinder, the bottom of an upright one
	HeadDepth quantity.Depth // of one head; a torispherical one has its own
	Zero      quantity.Depth // height of the gauge's zero above the lowest point inside
	Marks     []Mark         // of a measured tank, the lowest first
	Division  quantity.Depth // of the stick; 0 where not known
}

// FieldShape is the field of a refusal of a shape.
const FieldShape = "shape"

// Check refuses a shape that no tank has. Errors: fault.InputError.
func (s Shape) Check() error {
	round := s.Form == Upright || s.Form == Lying
	deepest := s.Diameter / 2
	if s.Form == Upright && s.Heads == Conical {
		deepest = 2 * s.Diameter
	}
	return cmp.Or(
		fault.If(s.Form == Unshaped, FieldShape, "its shape is not known; allowed: shape and sizes of the tank in the yard file"),
		fault.If(round && !(s.Diameter > 0), FieldShape, "a round tank needs its diameter; allowed: above 0"),
		fault.If((s.Form == Lying || s.Form == Box) && !(s.Length > 0), FieldShape, "the tank needs its length; allowed: above 0"),
		fault.If(s.Form == Box && !(s.Width > 0), FieldShape, "a box needs its width; allowed: above 0"),
		fault.If(round && !(s.HeadDepth >= 0 && s.HeadDepth <= deepest), FieldShape, "no head is so deep; allowed: 0 to %v", deepest),
		fault.If(!(s.Zero >= 0), FieldShape, "the gauge's zero lies below the tank; allowed: 0 and above"),
		s.checkMarks(),
	)
}

// checkMarks refuses marks that do not rise.
func (s Shape) checkMarks() error {
	if s.Form != MarkedTank {
		return nil
	}
	rising := true
	for i := range s.Marks[:max(1, len(s.Marks))-1] {
		rising = rising && s.Marks[i].Depth < s.Marks[i+1].Depth && s.Marks[i].Volume < s.Marks[i+1].Volume
	}
	return cmp.Or(
		fault.If(len(s.Marks) < 2, FieldShape, "a measured tank needs two depths or more"),
		fault.If(!rising, FieldShape, "depths and volumes of a measured tank must rise"),
	)
}
