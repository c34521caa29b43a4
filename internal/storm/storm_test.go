package storm

import (
	"fmt"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

const gallonPerMile = quantity.RatePerLength(quantity.Gallon) / quantity.RatePerLength(quantity.Mile)

// handYard is the yard of the worked example below: one mixer that gives
// 1,000 gal, 25 gal/min of water, a pump of 100 gal/min, 40 min of mixing, pure salt.
func handYard() Request {
	return Request{
		Now: 12 * 3600, Start: 20 * 3600, Low: quantity.Fahrenheit(20), Temperature: quantity.Fahrenheit(60), Band: yard.DefaultBand(),
		Routes: []yard.Route{
			{Name: "long", Liquid: balance.BrineName, Lanes: 40 * quantity.Mile, Rate: 50 * gallonPerMile, Passes: 1, Priority: 1},
			{Name: "short", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile, Passes: 2, Priority: 2},
		},
		Tanks: []yard.Tank{{
			Name: "store", Capacity: 5000 * quantity.Gallon, DeadVolume: 100 * quantity.Gallon, Contents: new(1100 * quantity.Gallon),
			LiquidName: balance.BrineName, Liquid: new(balance.SaltBrine(0.233)),
		}},
		Mixers: []yard.Tank{{Name: "mixer", WorkingVolume: 1100 * quantity.Gallon, PumpOff: 1000 * quantity.Gallon, MixTime: 2400}},
		Supply: yard.Supply{Flow: 25 * quantity.GallonPerMinute, Temperature: quantity.Fahrenheit(60)},
		Pump:   yard.Pump{Flow: 100 * quantity.GallonPerMinute},
		Pile:   yard.Pile{Quality: yard.PureSalt(), OnHand: new(20000 * quantity.Pound), Bucket: 1000 * quantity.Pound},
		Trucks: []yard.Truck{{Name: "truck", Tank: 1000 * quantity.Gallon, Speed: 30 * quantity.MilePerHour}},
	}
}

// The worked example, step by step. Densities: brine of 23.3 % at 60
// F 9.8227 lb/gal, water 8.3372.
func TestStormByHand(t *testing.T) {
	p, err := Make(handYard())
	require.NoError(t, err)
	gal, min := quantity.Gallon, quantity.Minute
	require.InEpsilon(t, 40*50+10*40*2, float64(p.Demanded/gal), 1e-12)
	pr := p.Production
	require.InEpsilon(t, 2800-1000, float64(pr.Wanted/gal), 1e-9)
	require.Equal(t, 2, pr.Batches)
	water := 9.8227 * (1 - 0.233) / 8.3372 * 1000 // 903.67 gal
	require.InEpsilon(t, 2*water, float64(pr.Water/gal), 1e-4)
	require.InEpsilon(t, 2*9.8227*0.233*1000, float64(pr.Salt/quantity.Pound), 1e-4)
	fill := water / 25 // 36.15 min
	// Fill, mix 40, pump off 10; the second batch waits for the same tank.
	require.InEpsilon(t, 2*(fill+50), float64((pr.DoneAt-handYard().Now)/min), 1e-4)
	require.InEpsilon(t, 100, float64(pr.PumpTime/min), 1e-9)
	require.InEpsilon(t, fill, float64(pr.IdleFirst/min), 1e-4)
	require.InEpsilon(t, fill, float64(pr.IdleLater/min), 1e-4)
	// The second load needs the first batch at 21:30, and the third the second at 23:00: work may begin with the first load.
	require.InDelta(t, 20*60, float64(pr.Latest/min), 0.51)
	require.Empty(t, pr.Shortage)
	require.Zero(t, p.Short)
	// Loads of 1,000, 1,000 and 800 gal at 100 gal/min; the first is out 20 miles for
	// 80 min there and back, so the second load waits for the truck.
	l := p.Loading
	require.Len(t, l.Loads, 3)
	require.InEpsilon(t, 20*60+10, float64(l.FirstOut/min), 1e-9)
	require.InEpsilon(t, 20*60+10+80+10+80+8, float64(l.LastOut/min), 1e-9)
}

// Sources: Iowa DOT: 50 gal on a lane-mile carry about 110 lb of salt (rounded to
// tens, hence 5 %); MPCA: 20,000 square feet at 0.5 gal per 1,000 take 10 gal.
func TestStormByPublishedRates(t *testing.T) {
	r := handYard()
	r.Routes = []yard.Route{{Name: "mile", Liquid: balance.BrineName, Lanes: quantity.Mile, Rate: 50 * gallonPerMile, Passes: 1}}
	p, err := Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 110, p.Balance.Loaded.NaCl/float64(quantity.Pound), 0.05)
	squareFoot := float64(quantity.Foot * quantity.Foot)
	r.Routes = []yard.Route{{Name: "lot", Liquid: balance.BrineName, Area: quantity.Area(20000 * squareFoot),
		AreaRate: quantity.RatePerArea(0.5 * float64(quantity.Gallon) / (1000 * squareFoot)), Passes: 1}}
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 10, float64(p.Demanded/quantity.Gallon), 1e-9)
	// MaineDOT table A: 10 gal of brine a ton of salt; 250 lb a lane-mile on 16 miles
	// are two tons.
	r.Routes = []yard.Route{{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Passes: 1,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}}
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 20, float64(p.Demanded/quantity.Gallon), 1e-9)
}

// BenchmarkStorm plans 500 routes and 50 batches.
func BenchmarkStorm(b *testing.B) {
	for _, size := range []struct{ routes, tanks, batches int }{{500, 1, 50}, {1000, 40, 100}, {5000, 200, 500}} {
		b.Run(fmt.Sprint(size.routes), func(b *testing.B) {
			r := handYard()
			r.Routes = nil
			for i := range size.routes {
				r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint(i), Liquid: balance.BrineName, Lanes: 2.04 * quantity.Mile, Rate: 50 * gallonPerMile})
			}
			r.Tanks[0].Capacity = 60000 * quantity.Gallon
			for i := range size.tanks - 1 {
				r.Tanks = append(r.Tanks, yard.Tank{Name: fmt.Sprint("t", i), Capacity: 3000 * quantity.Gallon, Contents: new(quantity.Volume(0))})
			}
			*r.Pile.OnHand, r.Start = 2000000*quantity.Pound, r.Now+400*3600
			b.ReportAllocs()
			for b.Loop() {
				p, err := Make(r)
				if err != nil || p.Production.Batches < size.batches || p.Short > 0 {
					b.Fatal(err, p.Production.Batches, p.Short)
				}
			}
		})
	}
}

// What is out of the band is named with its correction, and not counted.
func TestStormOutOfBand(t *testing.T) {
	r := handYard()
	r.Tanks[0].Liquid = new(balance.SaltBrine(0.25))
	p, err := Make(r)
	require.NoError(t, err)
	require.NotNil(t, p.Supply[0].Fix)
	require.Equal(t, brine.AddWater, p.Supply[0].Fix.Additive)
	require.Zero(t, p.Short) // loaded from the mixing tank: there is no other
	require.Zero(t, len(p.Production.Jobs)%2)
}

// A tank whose last reading leaves open whether it is in the band is a class of its own: not counted, and nothing is
// added to it on that reading. Where the range is known to be narrower, it is in or out.
func TestStormOnTheEdge(t *testing.T) {
	for _, c := range []struct {
		read, half   quantity.Strength
		edge, usable bool
	}{{0.2295, 0.0024, true, false}, {0.2295, 0.0001, false, false}, {0.231, 0.0024, false, true}, {0.2295, 0, false, false}} {
		r := handYard()
		tank := &r.Tanks[0]
		tank.Liquid = new(balance.SaltBrine(c.read))
		if c.half > 0 {
			tank.Low, tank.High = c.read-c.half, c.read+c.half
		}
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, c.edge, p.Supply[0].Edge, "%v", c)
		require.Equal(t, !c.edge && !c.usable, p.Supply[0].Fix != nil, "%v", c)
		require.Equal(t, c.usable, p.Production.Wanted < 2800*quantity.Gallon, "%v", c)
	}
}

func TestStormLimits(t *testing.T) {
	for name, c := range map[string]struct {
		limit  Shortage
		late   bool
		change func(*Request)
	}{
		"no mixer": {NoMixer, false, func(r *Request) { r.Mixers = nil }},
		"no salt":  {SaltEnds, false, func(r *Request) { *r.Pile.OnHand = 3000 * quantity.Pound }},
		"no room":  {TanksFull, false, func(r *Request) { r.Tanks[0].Capacity, r.Reserve = 1500*quantity.Gallon, 9000*quantity.Gallon }},
		"no time":  {NoShortage, true, func(r *Request) { r.Start, r.DownBy = r.Now, r.Now+4*3600 }},
	} {
		r := handYard()
		c.change(&r)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, c.limit, p.Production.Shortage, name)
		require.Equal(t, c.late, p.Production.Late, name)
		require.Positive(t, p.Demanded-p.InTime+p.ReserveGap, name)
	}
	r := handYard()
	r.Start = r.Now + 2*3600
	r.DownBy = r.Start + 270*60 // three loads take 10 + 80 min twice, and 8 + 80
	p, err := Make(r)
	require.NoError(t, err)
	require.False(t, p.Production.Late)
	r.Now, r.Mixers[0].MixTime = r.Start, 2*3600
	p, err = Make(r)
	require.NoError(t, err)
	require.True(t, p.Production.Late)
	require.Less(t, p.Production.Latest, r.Now)
}

// A mixing tank that pumps nothing off is none; an empty storage tank holds nothing and
// takes all its capacity.
func TestStormIdleTanks(t *testing.T) {
	r := handYard()
	r.Mixers[0].PumpOff, r.Supply.Flow = 0, 0
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, NoMixer, p.Production.Shortage)

	r = handYard()
	r.Tanks[0].Contents = new(quantity.Volume(0))
	p, err = Make(r)
	require.NoError(t, err)
	require.Empty(t, p.Supply)
	// 2,800 gal are wanted and 100 stay behind as dead volume, of three batches of 1,000.
	require.Equal(t, 3, p.Production.Batches)
	require.InEpsilon(t, 2800, float64(p.Loaded/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 200*9.8227*0.45359237, p.Balance.Left.Total(), 1e-4)
}

// All is to be down in 90 min: a load of 1,000 gal takes 10 to load and 80 on the road.
func TestStormAtOnce(t *testing.T) {
	r := handYard()
	r.Start, r.DownBy, r.Routes = r.Now, r.Now+90*60, r.Routes[:1]
	p, err := Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 1000, float64(p.InTime/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 2000, float64(p.Loaded/quantity.Gallon), 1e-9)
	require.True(t, p.Production.Late)
}

// A liquid that is bought is that liquid, even where it is plain salt brine.
func TestStormBoughtBrine(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.SaltBrine(0.2).Named("lot")}}
	r.Tanks = append(r.Tanks, yard.Tank{Name: "lb", Capacity: 3000 * quantity.Gallon, Contents: new(2000 * quantity.Gallon), LiquidName: "lot", Liquid: new(balance.SaltBrine(0.2))})
	r.Routes = []yard.Route{{Name: "a", Liquid: "lot", Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Short)
	line := p.Supply[len(p.Supply)-1]
	require.Equal(t, SupplyLine{Where: "lb", Liquid: "lot", Usable: 2000 * quantity.Gallon, First: line.First, Clear: true}, line)
}

// Half a gallon of 1,000 is short, though brines of two strengths may shrink by a tenth of
// that.
func TestStormShortOfLittle(t *testing.T) {
	r := handYard()
	r.Mixers = nil
	r.Routes = []yard.Route{{Name: "a", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 100.05 * gallonPerMile}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, Lack{Why: BrineEnds}, p.Routes[0].Lack)
	require.InDelta(t, 0.5, float64(p.Short/quantity.Gallon), 1e-6)
}

// A tank of 0.25 is corrected first where that puts more on the road: without mixing tanks its 1,000 gal above the suction
// and the water that goes in are all there is. By hand: 1,100 gal of 9.94 lb/gal at 25 % take 25 / 23.3 - 1 of their weight in
// water, and come to 11,732 lb / 9.8227 lb/gal = 1,194 gal.
func TestStormCorrectsFirst(t *testing.T) {
	r := handYard()
	r.Tanks[0].Liquid, r.Mixers = new(balance.SaltBrine(0.25)), nil
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, []string{r.Tanks[0].Name}, p.Production.Corrected)
	require.InDelta(t, 1094, float64(p.Loaded/quantity.Gallon), 2)
	// Nothing is gained where the mixing tank makes all of it in time.
	r = handYard()
	r.Tanks[0].Liquid = new(balance.SaltBrine(0.25))
	p, err = Make(r)
	require.NoError(t, err)
	require.Empty(t, p.Production.Corrected)
}
