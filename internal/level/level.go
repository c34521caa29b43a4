package level

import (
	"cmp"
	"math"
	"slices"

	"brineyard/internal/balance"
	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/root"
	"brineyard/internal/yard"
)

// UsualDivision is what a stick is read to where nothing else is known: half an inch. Common
// practice, no source.
const UsualDivision = quantity.Depth(0.5) * quantity.Inch

// inRange is the part of an even spread that holds 95 times in 100.
const inRange = 0.95

// Request asks what stands in a tank at a depth.
type Request struct {
	Shape    yard.Shape
	Depth    quantity.Depth  // on the stick, from the gauge's zero
	Division quantity.Depth  // of the stick, to the nearest of which it is read; 0 for exact
	Bed      quantity.Mass   // undissolved salt on the floor; brine fills its pores
	Capacity quantity.Volume // 0 where not known
}

// Result is what stands there.
type Result struct {
	Volume    quantity.Volume // of liquid
	Low, High quantity.Volume // the true volume lies between 95 times in 100, as the stick goes
	BedVolume quantity.Volume // of the solid salt, taken off
}

// Field names of refusals.
const (
	FieldDepth  = "depth"
	FieldVolume = "volume"
	FieldBed    = "bed"
)

// Calculate works out the volume at a depth. A stick is read to its nearest mark, so the true
// depth lies anywhere within half a division, evenly. Errors: fault.InputError.
func Calculate(r Request) (Result, error) {
	if err := r.Shape.Check(); err != nil {
		return Result{}, err
	}
	in := insideOf(r.Shape)
	h := float64(r.Depth + r.Shape.Zero)
	most := quantity.Depth(in.top) - r.Shape.Zero
	if err := cmp.Or(
		fault.If(!(r.Depth >= 0), FieldDepth, "less than zero; allowed: 0 and above"),
		fault.If(h > in.top*(1+1e-12), FieldDepth, "the tank is not so deep; allowed: up to %v", most),
		fault.If(!(r.Bed >= 0), FieldBed, "less than zero; allowed: 0 and above"),
	); err != nil {
		return Result{}, err
	}
	solid := r.Bed.Volume(balance.SolidSalt)
	at := func(h float64) quantity.Volume {
		return max(0, quantity.Volume(in.volume(min(max(h, 0), in.top)))-solid)
	}
	half := inRange * float64(r.Division) / 2
	v := Result{Volume: at(h), Low: at(h - half), High: at(h + half), BedVolume: solid}
	return v, cmp.Or(
		fault.If(r.Bed > 0 && v.Volume == 0, FieldBed, "so much salt would fill more than the tank holds at that depth; allowed: a smaller bed, or the depth above it"),
		fault.If(r.Capacity > 0 && v.Volume > r.Capacity*(1+fullSlack), FieldDepth, "that makes %v, and the tank holds %v; allowed: a depth within it, or look at its shape in the yard file", v.Volume, r.Capacity),
	)
}

// fullSlack is how far the shape of a tank may exceed its stated capacity, as measures and
// names of sizes go.
const fullSlack = 0.03

// Depth returns the depth on the stick at which a volume of liquid stands. Errors:
// fault.InputError.
func Depth(r Request, volume quantity.Volume) (quantity.Depth, error) {
	if err := r.Shape.Check(); err != nil {
		return 0, err
	}
	in := insideOf(r.Shape)
	wanted := float64(volume + r.Bed.Volume(balance.SolidSalt))
	high := in.top
	if math.IsInf(high, 1) {
		high = 1
		for in.volume(high) < wanted && high < 1e6 {
			high *= 2
		}
	}
	gap := func(h float64) float64 { return in.volume(h) - wanted }
	h, ok := root.Between(gap, 0, high, gap(0), gap(high), 1e-14*high)
	if !ok {
		return 0, fault.Input(FieldVolume, "the tank does not hold that; allowed: 0 to %v", quantity.Volume(in.volume(high))-r.Bed.Volume(balance.SolidSalt))
	}
	return quantity.Depth(h) - r.Shape.Zero, nil
}

// sorted are the points in order, with the end behind them.
func sorted(points []float64, end float64) []float64 {
	points = append(slices.DeleteFunc(points, func(x float64) bool { return !(x < end) }), end)
	slices.Sort(points)
	return points
}
