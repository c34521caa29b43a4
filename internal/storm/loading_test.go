package storm

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// Salt for pre-wetting rides along: 9 gal a ton and 4,000 lb of payload make 2 tons, 18
// gal, a little less for the liquid's own weight.
func TestStormPrewetPayload(t *testing.T) {
	r := handYard()
	r.Trucks[0].Empty, r.Trucks[0].Gross = 20000*quantity.Pound, 24200*quantity.Pound // 200 lb are kept
	r.Routes = []yard.Route{{Name: "wet", Liquid: balance.BrineName, Lanes: 32 * quantity.Mile,
		Prewet:   quantity.VolumePerMass(9 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Len(t, p.Loading.Loads, 3) // 8,000 lb of salt and its brine
	require.InDelta(t, 17.2, float64(p.Loading.Loads[0].Volume/quantity.Gallon), 0.1)
}

// A route tied to a busy truck does not hold up the others.
func TestStormQueue(t *testing.T) {
	r := handYard()
	*r.Pile.OnHand = 0
	r.Trucks = []yard.Truck{{Name: "slow", Tank: 100 * quantity.Gallon, Speed: 5 * quantity.MilePerHour}, {Name: "other", Tank: 1000 * quantity.Gallon}}
	r.Routes = []yard.Route{
		{Name: "tied", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 30 * gallonPerMile, Priority: 1, Trucks: []string{"slow"}},
		{Name: "free", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile, Priority: 2, Trucks: []string{"other"}},
	}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "other", p.Loading.Loads[1].Truck)
	require.InDelta(t, float64(r.Start+5*60), float64(p.Loading.Loads[1].Out), 1) // 1 min, then 4
}

// Of trucks that can start at the same time the first takes the load.
func TestStormFirstTruckFirst(t *testing.T) {
	r := handYard()
	r.Trucks = append(r.Trucks, yard.Truck{Name: "second", Tank: 1000 * quantity.Gallon})
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "truck", p.Loading.Loads[0].Truck)
	require.Equal(t, "second", p.Loading.Loads[1].Truck)
}

// Cost by hand: 2,800 gal at 9.8227 lb/gal, 23.3 % of it salt at 0.04 a lb; water
// A liquid that stands in a tank alone is counted, and priced where its price is known.
// By hand: 400 gal of 30 % calcium chloride at 2 a gallon; its chloride is 0.3 x 70.906 /
// 110.984 of 400 x 1,285 kg/m3 (CRC Handbook has 1.2816 g/cm3 at 20 C, 0.3 % more here
