package tank

import (
	"brineyard/internal/brine"
	"brineyard/internal/cli/show"
	"brineyard/internal/level"
	"brineyard/internal/quantity"
	"brineyard/internal/report"
	"brineyard/internal/yard"
)

// depthFigure is where the water of the charge stands on the stick, before the salt goes in: over what stands in the tank
// and the salt that lies there already. It is not known of a tank of which the file has no shape.
func (q *batch) depthFigure(v show.View, b brine.Batch) report.Figure {
	water, bed := q.request.HeelVolume+b.Water, quantity.Mass(0)
	if lies := q.tank.Is.OnFloor; lies != nil {
		bed = *lies
	}
	if q.leadsWithRecharge() {
		water, bed = q.request.Volume-b.PumpedOff+b.RechargeWater, q.request.Bed
	}
	none := report.Figure{Key: "water_depth", Label: "Fill to, on the stick", Value: report.Nothing("in", "the tank's shape is not known"), Quiet: true}
	if q.tank.Is.Shape.Form == yard.Unshaped {
		return none
	}
	depth, err := level.Depth(level.Request{Shape: q.tank.Is.Shape, Division: q.tank.Is.Shape.Division, Bed: bed, Capacity: q.tank.Is.Capacity}, water)
	if err != nil {
		return none // it does not go in, which the room of the tank has told
	}
	return v.Figure("water_depth", "Fill to, on the stick, before the salt", depth)
}
