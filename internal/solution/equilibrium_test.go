package solution

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// molColumns names the columns of equilibrium-solids.csv.
var molColumns = map[string]Solid{
	"mol_ice":          Ice,
	"mol_halite":       Halite,
	"mol_hydrohalite":  Hydrohalite,
	"mol_sylvite":      Sylvite,
	"mol_bischofite":   Bischofite,
	"mol_mgcl2_8h2o":   MgCl2Octahydrate,
	"mol_mgcl2_12h2o":  MgCl2Dodecahydrate,
	"mol_antarcticite": Antarcticite,
}

// Source: 157 states computed with the USGS geochemistry program PHREEQC and its
// database ColdChem.dat (testdata/reference/equilibrium-solids.csv). Liquid water is
// met to 4.3e-6 of the water, each solid to 0.0009 mol of some 50
// (its mass of a mol of water differs in the fifth digit).
func TestEquilibriumAgainstReference(t *testing.T) {
	model := standard.published()
	worst := 0.0
	for i, row := range referenceRows(t, "equilibrium-solids.csv") {
		c := composition(t, row)
		e, err := model.Equilibrium(c, zeroCelsius+number(t, row, "temp_C"))
		require.NoError(t, err, "row %d %v", i, row)
		want := number(t, row, "liquid_water_kg_per_kg_water")
		got := e.LiquidFraction * e.Liquid.Water() / c.Water()
		require.InDelta(t, want, got, 1e-5, "row %d %v", i, row)
		worst = math.Max(worst, math.Abs(want-got))
		for column, solid := range molColumns {
			want := number(t, row, column)
			got := e.Solid[solid] / (solid.MolarMass() * c.Water())
			require.InDelta(t, want, got, 1.5e-3, "row %d %s %v", i, column, row)
		}
	}
	t.Logf("worst deviation of liquid water: %.1e", worst)
}
