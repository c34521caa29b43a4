package storm

import (
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// Salt for pre-wetting rides along: 9 gal a ton and 4,000 lb of payload make 2 tons, 18
// gal, a little less for the liquid's own weight.
func TestStormPrewetPayload(t *testing.T) {
	r := handYard()
	r.Trucks[0].Empty, r.Trucks[0].Gross = 20000*quantity.Pound, 24000*quantity.Pound
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
	r.Plant.Pile = 0
	r.Trucks = []yard.Truck{{Name: "slow", Tank: 100 * quantity.Gallon, Speed: 5 * quantity.MilePerHour}, {Name: "other", Tank: 1000 * quantity.Gallon}}
	r.Routes = []yard.Route{
		{Name: "tied", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 30 * gallonPerMile, Priority: 1, Truck: "slow"},
		{Name: "free", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile, Priority: 2, Truck: "other"},
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

// A liquid that stands in a tank alone is counted, and priced where its price is known.
// By hand: 400 gal of 30 % calcium chloride at 2 a gallon; its chloride is 0.3 x 70.906 /
// 110.984 of 400 x 1,285 kg/m3 (CRC Handbook has 1.2816 g/cm3 at 20 C, 0.3 % more here
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
