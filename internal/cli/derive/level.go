package derive

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/working"
	"brineyard/internal/yard"
)

// perUnit divides a volume in cubic inches, or cubic centimeters, to gallons or liters.
func perUnit(v show.View) string {
	if v.System == quantity.Metric {
		return " / 1000"
	}
	return " / 231"
}

// Level is the volume of a tank with upright walls and a flat floor, less the salt on it; nothing
// for others, whose walls the level cuts in an arc.
func Level(v show.View, r level.Request, out level.Result) []report.Step {
	k := begin(v)
	height := k.Of(r.Depth + r.Shape.Zero)
	flat := r.Shape.Heads == yard.Flat || r.Shape.HeadDepth == 0 && r.Shape.Heads != yard.Torispherical
	var whole working.Term
	switch {
	case r.Shape.Form == yard.Box:
		whole = k.Step("Below the level", "length x width x depth"+perUnit(v), k.VolumeUnit(), k.Of(r.Shape.Length), k.Of(r.Shape.Width), height)
	case r.Shape.Form == yard.Upright && flat:
		d := k.Of(r.Shape.Diameter)
		whole = k.Step("Below the level", "0.785398 x diameter x diameter x depth"+perUnit(v), k.VolumeUnit(), d, d, height)
	default:
		return nil
	}
	if r.Bed > 0 {
		solid := k.Step("Salt on the bed, without its pores", "salt / density of the crystals", k.VolumeUnit(), k.Of(r.Bed), k.Density(balance.SolidSalt))
		k.Step("Liquid", "below the level - salt", k.VolumeUnit(), whole, solid)
	}
	return k.Steps()
}

// Pile is the weight of a cone or a windrow.
func Pile(v show.View, r level.PileRequest, out level.Pile) []report.Step {
	k := begin(v)
	h, w := k.Of(out.Height), k.Of(out.Width)
	scale := " / 1728"
	unit := "ft3"
	if v.System == quantity.Metric {
		scale, unit = " / 1000000", "m3"
	}
	if r.Width == 0 || r.Height == 0 {
		tangent := working.Number(math.Tan(float64(r.Angle)*math.Pi/180), "")
		if r.Width == 0 {
			w = k.Step("Width, by the angle", "2 x height / tangent of the angle", w.Unit(), h, tangent)
		} else {
			h = k.Step("Height, by the angle", "width / 2 x tangent of the angle", h.Unit(), w, tangent)
		}
	}
	whole := k.Step("Cone", "0.261799 x width x width x height"+scale, unit, w, w, h)
	if r.Length > 0 {
		ridge := k.Step("Ridge between its halves", "width x height / 2 x (length - width)"+scale, unit, w, h, k.Of(r.Length), w)
		whole = k.Step("Together", "cone + ridge", unit, whole, ridge)
	}
	k.Step("Weight", "volume x bulk density", k.MassUnit(), whole, k.Of(r.Bulk))
	return k.Steps()
}
