package level

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var forms = map[string]yard.Form{"horizontal": yard.Lying, "vertical": yard.Upright}

var heads = map[string]yard.Head{
	"flat": yard.Flat, "conical": yard.Conical, "ellipsoidal": yard.Ellipsoidal, "spherical": yard.Spherical, "torispherical": yard.Torispherical,
}

// Source: testdata/reference/tank-volumes.csv, whose head names the library and the worked
// examples that it reproduces.
func TestPublishedVolumes(t *testing.T) {
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "tank-volumes.csv"))
	require.NoError(t, err)
	defer f.Close()
	in := csv.NewReader(f)
	in.Comment = '#'
	rows, err := in.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 50)
	seen := map[string]int{}
	for _, row := range rows[1:] {
		inches := func(i int) quantity.Depth {
			if row[i] == "" {
				return 0
			}
			x, err := strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
			return quantity.Depth(x) * quantity.Inch
		}
		gallons, err := strconv.ParseFloat(row[6], 64)
		require.NoError(t, err)
		r := Request{Shape: yard.Shape{Form: forms[row[0]], Heads: heads[row[1]], Diameter: inches(2), Length: inches(3), HeadDepth: inches(4)}, Depth: inches(5)}
		got, err := Calculate(r)
		require.NoError(t, err, row)
		require.InEpsilon(t, gallons, float64(got.Volume/quantity.Gallon), 1e-6, "%v", row) // as printed; 0.1 % is wanted
		back, err := Depth(r, got.Volume)
		require.NoError(t, err, row)
		require.InDelta(t, float64(r.Depth), float64(back), 1e-9, "%v", row)
		seen[row[0]+" "+row[1]]++
	}
	require.Len(t, seen, 9, "each head lying, and all but one upright: %v", seen)
}

// Source: D. Jones (2009), as quoted in the head of that file: lying, conical heads, D 108 in,
// L 156 in, a 42 in.
func TestWorkedExample(t *testing.T) {
	shape := yard.Shape{Form: yard.Lying, Heads: yard.Conical, Diameter: 108 * quantity.Inch, Length: 156 * quantity.Inch, HeadDepth: 42 * quantity.Inch}
	for depth, gallons := range map[quantity.Depth]float64{36: 2041.19, 84: 6180.54} {
		got, err := Calculate(Request{Shape: shape, Depth: depth * quantity.Inch})
		require.NoError(t, err)
		require.InDelta(t, gallons, float64(got.Volume/quantity.Gallon), 0.005)
	}
}

// By hand: a box of 2 m by 1.5 m with 0.5 m in it holds 1.5 m3; a bed of 433 kg of solid salt
// is 0.2 m3 of that, and the brine fills its pores: 1.3 m3. A stick to 2 cm leaves 0.95 cm
// either way, 0.0285 m3.
func TestBedByHand(t *testing.T) {
	got, err := Calculate(Request{
		Shape: yard.Shape{Form: yard.Box, Length: 2, Width: 1.5}, Depth: 0.5, Division: 0.02, Bed: 433,
	})
	require.NoError(t, err)
	require.InDelta(t, 1.3, float64(got.Volume), 1e-12)
	require.InDelta(t, 0.2, float64(got.BedVolume), 1e-12)
	require.InDelta(t, 1.3-0.0285, float64(got.Low), 1e-12)
	require.InDelta(t, 1.3+0.0285, float64(got.High), 1e-12)
}

func TestZeroAndMarks(t *testing.T) {
	// The gauge's zero stands 10 cm above the floor of a box of 1 m2.
	box := yard.Shape{Form: yard.Box, Length: 1, Width: 1, Zero: 0.1}
	got, err := Calculate(Request{Shape: box, Depth: 0.4})
	require.NoError(t, err)
	require.InDelta(t, 0.5, float64(got.Volume), 1e-12)
	// Straight between the marks, and from an empty tank to the first.
	marked := yard.Shape{Form: yard.MarkedTank, Marks: []yard.Mark{{Depth: 0.5, Volume: 1}, {Depth: 1, Volume: 3}}}
	for depth, want := range map[quantity.Depth]float64{0: 0, 0.25: 0.5, 0.5: 1, 0.75: 2, 1: 3} {
		got, err := Calculate(Request{Shape: marked, Depth: depth})
		require.NoError(t, err)
		require.InDelta(t, want, float64(got.Volume), 1e-12)
	}
}

// drawShape draws any tank.
func drawShape(t *rapid.T) yard.Shape {
	d := rapid.Float64Range(0.3, 6).Draw(t, "diameter")
	s := yard.Shape{
		Form:     rapid.SampledFrom([]yard.Form{yard.Upright, yard.Lying, yard.Box}).Draw(t, "form"),
		Heads:    rapid.SampledFrom([]yard.Head{yard.Flat, yard.Conical, yard.Ellipsoidal, yard.Spherical, yard.Torispherical}).Draw(t, "heads"),
		Diameter: quantity.Depth(d), Length: quantity.Depth(rapid.Float64Range(0.3, 12).Draw(t, "length")), Width: quantity.Depth(rapid.Float64Range(0.3, 4).Draw(t, "width")),
		HeadDepth: quantity.Depth(d * rapid.Float64Range(0.01, 0.5).Draw(t, "head")),
	}
	return s
}

// Depth to volume and back; more depth is more volume; a full tank is its whole, worked out by
// the closed formulas of its parts.
func TestAnyTank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawShape(t)
		top := insideOf(s).top
		if math.IsInf(top, 1) {
			top = 5
		}
		h := top * rapid.Float64Range(0.001, 0.999).Draw(t, "part")
		got, err := Calculate(Request{Shape: s, Depth: quantity.Depth(h)})
		require.NoError(t, err)
		more, err := Calculate(Request{Shape: s, Depth: quantity.Depth(min(top, h*1.001))})
		require.NoError(t, err)
		require.Greater(t, float64(more.Volume), float64(got.Volume))
		back, err := Depth(Request{Shape: s}, got.Volume)
		require.NoError(t, err)
		require.InDelta(t, h, float64(back), 1e-9)
		if s.Form != yard.Lying || s.Heads == yard.Torispherical {
			return
		}
		full, err := Calculate(Request{Shape: s, Depth: quantity.Depth(top)})
		require.NoError(t, err)
		d, a, l := float64(s.Diameter), float64(s.HeadDepth), float64(s.Length)
		each := map[yard.Head]float64{
			yard.Conical: math.Pi * d * d / 4 * a / 3, yard.Ellipsoidal: math.Pi * d * d / 4 * a * 2 / 3, yard.Spherical: math.Pi * a * (3*d*d/4 + a*a) / 6,
		}[s.Heads]
		require.InEpsilon(t, math.Pi*d*d/4*l+2*each, float64(full.Volume), 1e-10)
	})
}

func TestRefused(t *testing.T) {
	box := yard.Shape{Form: yard.Box, Length: 1, Width: 1}
	lying := yard.Shape{Form: yard.Lying, Diameter: 2, Length: 3}
	for _, c := range []struct {
		r           Request
		field, text string
	}{
		{Request{}, yard.FieldShape, "its shape is not known"},
		{Request{Shape: yard.Shape{Form: yard.Box, Width: 1}}, yard.FieldShape, "needs its length"},
		{Request{Shape: yard.Shape{Form: yard.Box, Length: 1}}, yard.FieldShape, "needs its width"},
		{Request{Shape: yard.Shape{Form: yard.Upright}}, yard.FieldShape, "needs its diameter"},
		{Request{Shape: yard.Shape{Form: yard.Lying, Diameter: 2, Length: 3, HeadDepth: 1.1, Heads: yard.Conical}}, yard.FieldShape, "no head is so deep"},
		{Request{Shape: yard.Shape{Form: yard.MarkedTank, Marks: []yard.Mark{{Depth: 1, Volume: 1}}}}, yard.FieldShape, "two depths"},
		{Request{Shape: yard.Shape{Form: yard.MarkedTank, Marks: []yard.Mark{{Depth: 1, Volume: 2}, {Depth: 2, Volume: 2}}}}, yard.FieldShape, "must rise"},
		{Request{Shape: yard.Shape{Form: yard.Box, Length: 1, Width: 1, Zero: -1}}, yard.FieldShape, "gauge's zero"},
		{Request{Shape: lying, Depth: 2.1}, FieldDepth, "not so deep"},
		{Request{Shape: box, Depth: -0.1}, FieldDepth, "less than zero"},
		{Request{Shape: box, Depth: 1, Capacity: 0.9}, FieldDepth, "and the tank holds"},
		{Request{Shape: box, Depth: 0.1, Bed: 1000}, FieldBed, "more than the tank holds"},
		{Request{Shape: box, Depth: 0.1, Bed: -1}, FieldBed, "less than zero"},
	} {
		_, err := Calculate(c.r)
		var refused *fault.InputError
		require.ErrorAs(t, err, &refused, c.text)
		require.Equal(t, c.field, refused.Field)
		require.Contains(t, refused.Reason, c.text)
	}
	_, err := Depth(Request{Shape: lying}, 100)
	require.ErrorContains(t, err, "does not hold that")
}
