package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// acetate is potassium acetate as a data sheet gives it, from Melinder (2010) in
// testdata/published/melinder-freezing.csv.
func acetate(t testing.TB) *Product {
	p := &Product{Solute: 0.5, Density: 1280}
	for _, row := range publishedRows(t, "melinder-freezing.csv") {
		if row["salt"] == "K-acetate" {
			p.Freezing = append(p.Freezing, FreezingPoint{number(t, row, "mass_pct") / 100, zeroCelsius + number(t, row, "freezing_C")})
		}
	}
	require.Len(t, p.Freezing, 7)
	return p
}

// A product alone freezes where its own table says.
func TestProductAloneFollowsItsTable(t *testing.T) {
	p := acetate(t)
	for _, f := range p.Freezing {
		got, err := EstimateIcePoint(Composition{Other: f.Solute}, []ProductShare{{p, f.Solute}})
		require.NoError(t, err)
		require.True(t, got.Found)
		require.InDelta(t, f.Temperature, got.Temperature, 1e-4, "%g", f.Solute)
	}
}

// A product whose table is that of calcium chloride, blended with salt brine, gives
// the ice points of the model's own mixtures within 0.4 C. Source of the table and
// of the mixtures: testdata/reference/freezing-points.csv.
func TestProductBlendAgainstReference(t *testing.T) {
	rows := referenceRows(t, "freezing-points.csv")
	calcium := &Product{Solute: 0.32, Density: 1300}
	for _, row := range rows {
		c := composition(t, row)
		if c == (Composition{CaCl2: c.CaCl2}) {
			calcium.Freezing = append(calcium.Freezing, FreezingPoint{c.CaCl2, zeroCelsius + number(t, row, "ice_C")})
		}
	}
	require.Len(t, calcium.Freezing, 16)
	compared, worst := 0, 0.0
	for _, row := range rows {
		c := composition(t, row)
		if c.NaCl == 0 || c.CaCl2 == 0 {
			continue
		}
		got, err := EstimateIcePoint(Composition{NaCl: c.NaCl, Other: c.CaCl2}, []ProductShare{{calcium, c.CaCl2}})
		require.NoError(t, err)
		want := number(t, row, "ice_C")
		require.InDelta(t, want, got.Temperature-zeroCelsius, 0.4, "%+v", c)
		worst = math.Max(worst, math.Abs(want-got.Temperature+zeroCelsius))
		compared++
	}
	require.Greater(t, compared, 15)
	t.Logf("%d mixtures, worst %.2f C", compared, worst)
}

// Chlorides without a product freeze at the model's ice point, and fresh water at
// 0 C.
func TestEstimateWithoutProducts(t *testing.T) {
	for _, c := range []Composition{Brine(0.2), ternary, {NaCl: 0.1, KCl: 0.02, MgCl2: 0.05}} {
		f, err := Anchored().Freezing(c)
		require.NoError(t, err)
		got, err := EstimateIcePoint(c, nil)
		require.NoError(t, err)
		require.InDelta(t, f.Ice.Temperature, got.Temperature, 1e-4, "%+v", c)
	}
	water, err := EstimateIcePoint(Composition{}, nil)
	require.NoError(t, err)
	require.InDelta(t, zeroCelsius, water.Temperature, 1e-6)
}

// Beyond the end of its table a product has no ice point; the answer is that end.
func TestProductTableEnds(t *testing.T) {
	p := acetate(t)
	got, err := EstimateIcePoint(Composition{Other: 0.45}, []ProductShare{{p, 0.45}})
	require.NoError(t, err)
	require.False(t, got.Found)
	require.Equal(t, p.Coldest(), got.Temperature)
}

func TestProductSheets(t *testing.T) {
	good := func() Product {
		return Product{Solute: 0.5, Density: 1280, Freezing: []FreezingPoint{{0.1, 268}, {0.2, 263}}}
	}
	for name, spoil := range map[string]func(*Product){
		"no solute":       func(p *Product) { p.Solute = 0 },
		"solute NaN":      func(p *Product) { p.Solute = nan },
		"light":           func(p *Product) { p.Density = 100 },
		"no table":        func(p *Product) { p.Freezing = nil },
		"warm row":        func(p *Product) { p.Freezing[0].Temperature = 274 },
		"warmer row":      func(p *Product) { p.Freezing[1].Temperature = 269 },
		"weaker row":      func(p *Product) { p.Freezing[1].Solute = 0.05 },
		"all solute":      func(p *Product) { p.Freezing[1].Solute = 1 },
		"below floor":     func(p *Product) { p.Freezing[1].Temperature = 100 },
		"temperature NaN": func(p *Product) { p.Freezing[1].Temperature = nan },
	} {
		p := good()
		require.NoError(t, p.Check())
		spoil(&p)
		require.ErrorIs(t, p.Check(), ErrProduct, name)
		_, err := EstimateIcePoint(Composition{Other: 0.1}, []ProductShare{{&p, 0.1}})
		require.ErrorIs(t, err, ErrProduct, name)
	}
	_, err := EstimateIcePoint(Composition{NaCl: 2}, nil)
	require.ErrorIs(t, err, ErrComposition)
}

// The interpolation passes through its points and is monotone.
func TestMonotone(t *testing.T) {
	points := []knot{{10, 0}, {9, 1}, {7, 1.2}, {2, 8}, {1, 8.1}}
	before := -1.0
	for x := 10.0; x >= 1; x -= 0.01 {
		y := monotone(points, x)
		require.GreaterOrEqual(t, y, before, "x = %g", x)
		before = y
	}
	for _, p := range points {
		require.InDelta(t, p.y, monotone(points, p.x), 1e-12)
	}
	require.InDelta(t, 0.5, monotone([]knot{{1, 0}, {0, 1}}, 0.5), 1e-12)
}
