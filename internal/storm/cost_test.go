package storm

import (
	"fmt"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// One request has one answer, to the last digit: the cost and the chloride of four bought
// liquids come out the same each time, as they are summed in one order.
func TestStormSumsInOneOrder(t *testing.T) {
	r := handYard()
	for i, dollars := range []float64{0.19, 1.24, 3.85, 0.73} {
		name := fmt.Sprint("cal", i)
		r.Others = append(r.Others, yard.Liquid{
			Liquid: wild.Calcium(0.26 + 0.017*float64(i)).Named(name), OnHand: 900 * quantity.Gallon,
			Price: new(quantity.PricePerVolume(dollars / float64(quantity.Gallon))),
		})
		r.Routes = append(r.Routes, yard.Route{Name: name, Liquid: name, Lanes: 10 * quantity.Mile, Rate: quantity.RatePerLength(14+7*i) * gallonPerMile})
	}
	first, err := Make(r)
	require.NoError(t, err)
	require.Len(t, first.Liquids, 4)
	require.NotEqual(t, balance.BrineName, first.Liquids[0].Name)
	for range 100 {
		again, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, *first.Cost.Additive, *again.Cost.Additive)
		require.Equal(t, first.Cost, again.Cost)
	}
}
