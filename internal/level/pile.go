package level

import (
	"cmp"
	"math"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
)

// What loose road salt is like where the yard file does not say. Common practice, no source.
const (
	UsualBulk  = 80 * quantity.PoundPerCubicFoot
	UsualAngle = quantity.Angle(32)
)

// PileRequest asks what a pile of salt weighs.
type PileRequest struct {
	Height quantity.Depth // of its ridge or tip; 0 for that of its width and angle
	Width  quantity.Depth // at its foot; 0 for that of its height and angle
	Length quantity.Depth // at its foot, of a windrow; 0 for a cone
	Bulk   quantity.BulkDensity
	Angle  quantity.Angle // of repose
}

// Pile is what it weighs.
type Pile struct {
	Height, Width quantity.Depth // as asked, or by the angle
	Cone          quantity.Volume
	Ridge         quantity.Volume // of the part between the two half cones of a windrow
	Volume        quantity.Volume
	Mass          quantity.Mass
	Slope         quantity.Angle // that height and width make
}

// Field names of refusals.
const (
	FieldHeight = "height"
	FieldWidth  = "width"
	FieldLength = "length"
)

// Weigh works out a pile: a cone, or a windrow, which is a ridge between the halves of a cone. Of
// height and width one follows from the other by the angle. Errors: fault.InputError.
func Weigh(r PileRequest) (Pile, error) {
	steepest := math.Tan(float64(r.Angle) * math.Pi / 180)
	p := Pile{Height: r.Height, Width: r.Width}
	switch {
	case r.Width == 0 && r.Height > 0:
		p.Width = 2 * r.Height / quantity.Depth(steepest)
	case r.Height == 0 && r.Width > 0:
		p.Height = r.Width / 2 * quantity.Depth(steepest)
	}
	h, w := float64(p.Height), float64(p.Width)
	p.Slope = quantity.Angle(math.Atan2(h, w/2) * 180 / math.Pi)
	if err := cmp.Or(
		fault.If(!(r.Angle > 0 && r.Angle < 60), "angle", "no salt lies so; allowed: above 0 deg and below 60 deg"),
		fault.If(!(r.Bulk > 0), "density", "nothing weighs nothing; allowed: above 0 lb/ft3"),
		fault.If(!(r.Height > 0 || r.Width > 0), FieldHeight, "neither height nor width is known; allowed: one of them, or both"),
		fault.If(!(r.Height >= 0), FieldHeight, "less than zero; allowed: 0 and above"),
		fault.If(!(r.Width >= 0), FieldWidth, "less than zero; allowed: 0 and above"),
		fault.If(!(r.Length == 0 || r.Length >= p.Width), FieldLength, "shorter than the pile is wide; allowed: %v and above, or none for a cone", p.Width),
		fault.If(p.Slope > r.Angle+steeper, FieldHeight, "so high a pile of that width is steeper than salt lies; allowed: up to %v", quantity.Depth(w/2*math.Tan(float64(r.Angle+steeper)*math.Pi/180))),
	); err != nil {
		return Pile{}, err
	}
	p.Cone = quantity.Volume(math.Pi / 12 * w * w * h)
	if r.Length > 0 {
		p.Ridge = quantity.Volume(w * h / 2 * (float64(r.Length) - w))
	}
	p.Volume = p.Cone + p.Ridge
	p.Mass = quantity.Mass(float64(p.Volume) * float64(r.Bulk))
	return p, nil
}

// steeper is by how many degrees a fresh or crusted pile may stand steeper than its angle. Common
// practice, no source.
const steeper = quantity.Angle(8)
