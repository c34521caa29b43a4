package storm

import (
	"fmt"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
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

// 2,800 x 9.8227 x 0.767 lb at 1 a m3; 1 an hour; 2 a mile over 2 x 60 miles.
func TestStormCost(t *testing.T) {
	r := handYard()
	salt, water := quantity.PricePerMass(0.04/float64(quantity.Pound)), quantity.PricePerVolume(1)
	labour, driving := quantity.PricePerTime(1.0/3600), quantity.PricePerLength(2/float64(quantity.Mile))
	r.Prices = yard.Prices{Salt: &salt, Water: &water, Labour: &labour, Driving: &driving, DrySalt: quantity.MassPerLength(200 * float64(quantity.Pound) / float64(quantity.Mile))}
	p, err := Make(r)
	require.NoError(t, err)
	c := p.Cost
	require.InEpsilon(t, 2800*9.8227*0.233*0.04, float64(*c.Salt), 1e-4)
	require.InEpsilon(t, 2800*9.8227*0.767*0.45359237/1000, float64(*c.Water), 1e-4)
	require.InEpsilon(t, 2*60*2, float64(*c.Driving), 1e-9)
	require.InEpsilon(t, float64(p.Production.DoneAt-r.Now)/3600+4, float64(*c.Labour), 1e-9)
	require.Zero(t, *c.Additive)
	require.InEpsilon(t, 2800*9.8227*0.233*35.453/58.443*0.45359237, float64(c.Chloride), 1e-4)
	require.InEpsilon(t, 60*float64(quantity.Mile), float64(c.Lanes), 1e-12)
	require.InEpsilon(t, 60*200*0.04, float64(*c.DrySalt), 1e-9)
	require.InEpsilon(t, float64(*c.Salt+*c.Water+*c.Labour+*c.Driving), float64(c.Total), 1e-12)
	require.False(t, c.Missing)
}

// at 60 F).
func TestStormAdditiveCost(t *testing.T) {
	r := handYard()
	cal := balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.3}}
	r.Routes = []yard.Route{{Name: "a", Liquid: "cal", Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile}}
	r.Tanks = append(r.Tanks, yard.Tank{Name: "cal tank", Capacity: 600 * quantity.Gallon, DeadVolume: 50 * quantity.Gallon, Contents: new(500 * quantity.Gallon), LiquidName: "cal", Liquid: new(cal)})
	p, err := Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 450, float64(p.Liquids[0].OnHand/quantity.Gallon), 1e-12)
	require.Nil(t, p.Cost.Additive)
	require.True(t, p.Cost.Missing)

	price := quantity.PricePerVolume(2 / float64(quantity.Gallon))
	r.Others = []yard.Liquid{{Liquid: cal.Named("cal"), Price: &price}}
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 800, float64(*p.Cost.Additive), 1e-9)
	require.InEpsilon(t, 400*3.785411784e-3*1285*0.3*70.906/110.984, float64(p.Cost.Chloride), 5e-3)
}

// By hand: what TestStormCost sums up, over 2,800 gal and over 60 lane-miles of 12 feet.
func TestStormCostByUnit(t *testing.T) {
	r := handYard()
	salt := quantity.PricePerMass(0.04 / float64(quantity.Pound))
	r.Prices.Salt = &salt
	p, err := Make(r)
	require.NoError(t, err)
	c := p.Cost
	require.InEpsilon(t, 9.8227*0.233*0.04, float64(*c.PerVolume)*float64(quantity.Gallon), 1e-4)
	require.InEpsilon(t, 2800*9.8227*0.233*0.04/60, float64(*c.PerLane)*float64(quantity.Mile), 1e-4)
	chloride := 2800 * 9.8227 * 0.233 * 35.453 / 58.443 * 0.45359237
	require.InEpsilon(t, chloride/60/1609.344, float64(c.ChloridePerLane), 1e-4)
	require.InEpsilon(t, chloride/60/1609.344/(12*0.3048), c.ChloridePerArea, 1e-4)
	// Two batches of 2,288.69 lb by buckets of 1,000 lb.
	require.InEpsilon(t, 4.57738, p.Production.Buckets, 1e-4)
	require.Equal(t, 2800*quantity.Gallon, p.Loading.Trucks[0].Volume)
	require.Equal(t, 3, p.Loading.Trucks[0].Loads)
}
