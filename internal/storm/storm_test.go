package storm

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/fault/faulttest"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/wild"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

const gallonPerMile = quantity.RatePerLength(quantity.Gallon) / quantity.RatePerLength(quantity.Mile)

// handYard is the yard of the worked example below: one mixer that gives
// 1,000 gal, 25 gal/min of water, a pump of 100 gal/min, 40 min of mixing, pure salt.
func handYard() Request {
	return Request{
		Now: 12 * 3600, Start: 20 * 3600, Low: quantity.Fahrenheit(20), Temperature: quantity.Fahrenheit(60), Band: yard.DefaultBand,
		Routes: []yard.Route{
			{Name: "long", Liquid: balance.BrineName, Lanes: 40 * quantity.Mile, Rate: 50 * gallonPerMile, Passes: 1, Priority: 1},
			{Name: "short", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile, Passes: 2, Priority: 2},
		},
		Tanks: []yard.Tank{{
			Name: "store", Capacity: 5000 * quantity.Gallon, DeadVolume: 100 * quantity.Gallon, Contents: new(1100 * quantity.Gallon),
			LiquidName: balance.BrineName, Liquid: new(balance.SaltBrine(0.233)),
		}},
		Mixers: []yard.Tank{{Name: "mixer", WorkingVolume: 1100 * quantity.Gallon, PumpOff: 1000 * quantity.Gallon, MixTime: 2400}},
		Plant: Plant{
			Supply: 25 * quantity.GallonPerMinute, Pump: 100 * quantity.GallonPerMinute, WaterTemp: quantity.Fahrenheit(60),
			RockSalt: yard.PureSalt, Pile: 20000 * quantity.Pound, Bucket: 1000 * quantity.Pound,
		},
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
	require.InEpsilon(t, 20*60-2*(fill+50), float64(pr.Latest/min), 1e-4)
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
	require.InEpsilon(t, 110, p.Balance.Loaded.Salt/float64(quantity.Pound), 0.05)
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

// drawStorm makes a yard and a storm from a seed: any number of tanks, mixers, trucks
// and routes, some of them short of one thing or another.
func drawStorm(seed uint64) Request {
	g := rand.New(rand.NewPCG(seed, 99))
	between := func(low, high float64) float64 { return low + (high-low)*g.Float64() }
	gallons := func(low, high float64) quantity.Volume { return quantity.Volume(between(low, high)) * quantity.Gallon }
	r := handYard()
	r.Start = r.Now + quantity.Duration(between(0, 16*3600))
	r.Reserve = gallons(0, 800)
	r.Routes, r.Tanks, r.Mixers, r.Trucks = nil, nil, nil, nil
	liquids := []string{balance.BrineName, balance.BrineName, "cal", "mix"}
	wet := func(r *yard.Route) {
		r.Rate, r.Prewet, r.SaltRate = 0, quantity.VolumePerMass(between(2e-5, 8e-5)), quantity.MassPerLength(between(0.03, 0.1))
	}
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.3}}, OnHand: gallons(0, 900)}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: quantity.Fraction(between(0.02, 0.2))}}
	for i := range 1 + g.IntN(8) {
		r.Routes = append(r.Routes, yard.Route{
			Name: fmt.Sprint("r", i), Liquid: liquids[g.IntN(len(liquids))], Lanes: quantity.Length(between(1, 40)) * quantity.Mile,
			Rate: quantity.RatePerLength(between(15, 60)) * gallonPerMile, Passes: 1 + g.IntN(3), Priority: g.IntN(3),
		})
	}
	if g.IntN(3) == 0 {
		wet(&r.Routes[0])
	}
	for i := range g.IntN(4) {
		t := yard.Tank{Name: fmt.Sprint("t", i), Capacity: gallons(500, 8000), LiquidName: balance.BrineName, Liquid: new(balance.SaltBrine(quantity.Strength(between(0.225, 0.245))))}
		t.DeadVolume = t.Capacity * quantity.Volume(between(0, 0.1))
		t.Contents = new(t.Capacity * quantity.Volume(between(0, 1)))
		if g.IntN(4) == 0 {
			t.LiquidName, t.Liquid = "cal", new(r.Others[0].Liquid)
		}
		r.Tanks = append(r.Tanks, t)
	}
	for i := range g.IntN(4) {
		r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint("m", i), PumpOff: gallons(150, 2500), MixTime: quantity.Duration(between(600, 4000))})
	}
	r.Plant.Supply, r.Plant.Pump = quantity.Flow(between(10, 80))*quantity.GallonPerMinute, quantity.Flow(between(30, 300))*quantity.GallonPerMinute
	r.Plant.RockSalt = yard.RockSalt{Purity: quantity.Strength(between(0.9, 1)), Moisture: quantity.Strength(between(0, 0.04))}
	r.Plant.Pile = quantity.Mass(between(0, 60000)) * quantity.Pound
	for i := range g.IntN(4) {
		r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: gallons(150, 2500), Empty: 9000, Gross: quantity.Mass(between(9500, 16000))})
	}
	return r
}

// Over 1,000 generated yards and storms nothing is lost, no tank runs over or dry, and
// nothing is done twice at once.
func TestStormBalances(t *testing.T) {
	made, short, loads := 0, 0, 0
	for seed := range uint64(1000) {
		r := drawStorm(seed)
		p, err := Make(r)
		require.NoError(t, err, "seed %d", seed)
		requireVolumes(t, seed, p)
		b := p.Balance
		for _, q := range [][4]float64{
			{b.Start.Mass, b.Made.Mass, b.Loaded.Mass, b.Left.Mass},
			{b.Start.Salt, b.Made.Salt, b.Loaded.Salt, b.Left.Salt},
			{b.Start.Chloride, b.Made.Chloride, b.Loaded.Chloride, b.Left.Chloride},
		} {
			require.InDelta(t, q[0]+q[1], q[2]+q[3], 1e-9*(q[0]+q[1])+1e-9, "seed %d", seed)
		}
		requireWater(t, r, p)
		requireTanks(t, seed, r)
		requireOneAtATime(t, seed, p)
		pr := p.Production
		require.InDelta(t, float64(pr.DoneAt-r.Now), float64(pr.PumpTime+pr.IdleFirst+pr.IdleLater), 1e-6, "seed %d", seed)
		require.LessOrEqual(t, float64(pr.DoneAt), float64(r.Start)+1e-3)
		require.LessOrEqual(t, float64(pr.Salt), max(0, float64(r.Plant.Pile-p.DrySalt))*(1+1e-9))
		made += pr.Batches
		loads += len(p.Loading.Loads)
		if p.Short > 0 {
			short++
		}
	}
	// The generator reaches what it is to reach.
	require.Greater(t, made, 300)
	require.Greater(t, loads, 2000)
	require.Greater(t, short, 200)
	require.Less(t, short, 950)
}

// requireVolumes checks gallons demanded = loaded + short, by route and in all.
func requireVolumes(t *testing.T, seed uint64, p Plan) {
	t.Helper()
	require.InDelta(t, float64(p.Demanded), float64(p.Loaded+p.Short), 1e-9*float64(p.Demanded), "seed %d", seed)
	served, out := quantity.Volume(0), map[string]quantity.Volume{}
	for _, l := range p.Loading.Loads {
		out[l.Route] += l.Volume
	}
	for _, r := range p.Routes {
		require.LessOrEqual(t, float64(r.Served), float64(r.Demanded)*(1+1e-12))
		require.Equal(t, r.Served < r.Demanded*(1-1e-12), r.Cause != "", "seed %d %+v", seed, r)
		served += r.Served
		if len(p.Loading.Loads) > 0 {
			require.InDelta(t, float64(r.Served), float64(out[r.Route.Name]), 1e-8*float64(r.Served)+1e-12, "seed %d", seed)
		}
	}
	require.InDelta(t, float64(p.Loaded), float64(served), 1e-9*float64(served)+1e-12)
}

// requireWater checks that water, salt and sludge that go into the mixers are the
// brine that comes out, where every batch is pumped off whole.
func requireWater(t *testing.T, r Request, p Plan) {
	t.Helper()
	whole := quantity.Volume(0)
	for _, j := range p.Production.Jobs {
		if j.Kind == JobPumpOff {
			whole += j.Volume
		}
	}
	full := 0.0
	for _, j := range p.Production.Jobs {
		for _, m := range r.Mixers {
			if j.Kind == JobPumpOff && j.What == m.Name {
				full += float64(m.PumpOff)
			}
		}
	}
	if full == 0 || math.Abs(full-float64(whole)) > 1e-9*full {
		return
	}
	water := balance.BrineDensity(0, r.Plant.WaterTemp)
	salt := float64(p.Production.Salt)
	in := float64(p.Production.Water.Mass(water)) + salt*float64(r.Plant.RockSalt.Moisture) + salt*r.Plant.RockSalt.SodiumChloride()
	require.InEpsilon(t, p.Balance.Made.Mass, in, 1e-9)
	require.InEpsilon(t, p.Balance.Made.Salt, salt*r.Plant.RockSalt.SodiumChloride(), 1e-9)
}

// requireTanks follows the tanks through production and loading.
func requireTanks(t *testing.T, seed uint64, r Request) {
	t.Helper()
	y, err := newStormYard(r)
	require.NoError(t, err)
	var p Plan
	require.NoError(t, y.demand(&p))
	runs, err := y.runs()
	require.NoError(t, err)
	y.order(&p, runs)
	need, drySalt := y.claims(&p, runs)
	before := map[string]quantity.Volume{}
	for _, s := range y.tanks {
		before[s.tank.Name] = s.volume(r.Temperature)
	}
	p.Production = y.produce(runs, need, drySalt)
	for _, j := range p.Production.Jobs {
		if j.Kind == JobPumpOff {
			y.store(j.Volume)
		}
	}
	for _, s := range y.tanks {
		require.LessOrEqual(t, float64(s.volume(r.Temperature)), float64(s.tank.Capacity)*(1+1e-9), "seed %d: %s runs over", seed, s.tank.Name)
	}
	y.allocate(&p)
	for _, s := range y.tanks {
		least := min(s.tank.DeadVolume, before[s.tank.Name])
		require.GreaterOrEqual(t, float64(s.volume(r.Temperature)), float64(least)*(1-1e-9)-1e-12, "seed %d: %s below its dead volume", seed, s.tank.Name)
	}
	for _, o := range y.others {
		require.GreaterOrEqual(t, float64(o.left), -1e-12)
	}
}

// requireOneAtATime checks that the pump, the supply, each mixer and each truck do one
// thing at a time.
func requireOneAtATime(t *testing.T, seed uint64, p Plan) {
	t.Helper()
	busy := map[string][][2]float64{}
	add := func(what string, from, to quantity.Duration) {
		busy[what] = append(busy[what], [2]float64{float64(from), float64(to)})
	}
	for _, j := range p.Production.Jobs {
		add("mixer "+j.What, j.Start, j.End)
		if j.Kind == JobFill {
			add("supply", j.Start, j.End)
		} else {
			add("pump", j.Start, j.End)
		}
	}
	for _, l := range p.Loading.Loads {
		add("pump", l.Start, l.Out)
		add("truck "+l.Truck, l.Start, l.Back)
	}
	for what, spans := range busy {
		sort.Slice(spans, func(i, j int) bool { return spans[i][0] < spans[j][0] })
		for i := 1; i < len(spans); i++ {
			require.GreaterOrEqual(t, spans[i][0], spans[i-1][1]-1e-6, "seed %d: %s does two things at once", seed, what)
		}
	}
}

// Routes of a higher priority are served whole before others get anything; within
// one, those that take least for a lane come first.
func TestStormPriorities(t *testing.T) {
	r := handYard()
	r.Plant.Pile = 0
	r.Routes = []yard.Route{
		{Name: "thirsty", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 60 * gallonPerMile, Priority: 2},
		{Name: "frugal", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 30 * gallonPerMile, Priority: 2},
		{Name: "first", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 50 * gallonPerMile, Priority: 1},
		{Name: "last", Liquid: balance.BrineName, Lanes: quantity.Mile, Rate: 10 * gallonPerMile},
	}
	p, err := Make(r)
	require.NoError(t, err)
	var names []string
	for _, route := range p.Routes {
		names = append(names, route.Route.Name)
	}
	require.Equal(t, []string{"first", "frugal", "thirsty", "last"}, names)
	// 1,000 gal: 500, 300, then 200 of 600, and nothing.
	require.InDelta(t, 200, float64(p.Routes[2].Served/quantity.Gallon), 1e-6)
	require.Zero(t, p.Routes[3].Served)
	require.Equal(t, SaltEnds, p.Production.Shortage)
	require.InDelta(t, 410, float64(p.Short/quantity.Gallon), 1e-6)
}

// Dry salt for pre-wetting comes off the same pile: it is set aside before batches are
// planned, and a pile that is too small for it serves the route in part. Salt by hand:
// 250 lb x 16 mi = 4,000 lb for 20 gal of brine.
func TestStormDrySalt(t *testing.T) {
	r := handYard()
	wet := yard.Route{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Passes: 1,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}
	r.Routes = append(r.Routes, wet)
	r.Plant.Pile = 4000*quantity.Pound + 2300*quantity.Pound // enough for one batch of 2,289 lb
	p, err := Make(r)
	require.NoError(t, err)
	// The plain routes come first and take both batches, 4,578 lb; 1,722 lb are left for
	// 4,000.
	require.Equal(t, 2, p.Production.Batches)
	require.Zero(t, p.Routes[0].Cause)
	require.InEpsilon(t, 6300-2*2288.69, float64(p.DrySalt/quantity.Pound), 1e-3)
	require.Equal(t, DrySaltName, p.Routes[2].Cause)

	r.Routes, r.Plant.Pile = []yard.Route{wet}, 1000*quantity.Pound
	p, err = Make(r)
	require.NoError(t, err)
	require.Equal(t, DrySaltName, p.Routes[0].Cause)
	require.InEpsilon(t, 0.25, float64(p.Routes[0].Served/p.Routes[0].Demanded), 1e-12)
	price := quantity.PricePerMass(1 / float64(quantity.Pound))
	r.Plant.Pile, r.Prices.Salt = 9000*quantity.Pound, &price
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 4000+20*9.8227*0.233, float64(*p.Cost.Salt), 1e-4)
}

// What is out of the band is named with its correction, and not counted.
func TestStormOutOfBand(t *testing.T) {
	r := handYard()
	r.Tanks[0].Liquid = new(balance.SaltBrine(0.25))
	p, err := Make(r)
	require.NoError(t, err)
	require.NotNil(t, p.Supply[0].Fix)
	require.Equal(t, brine.AddWater, p.Supply[0].Fix.Additive)
	require.Equal(t, 2800*quantity.Gallon, p.Production.Wanted)
	require.Equal(t, OutOfBand, p.Production.Shortage) // there is no other tank
}

func TestStormLimits(t *testing.T) {
	for name, c := range map[string]struct {
		limit  Shortage
		late   bool
		change func(*Request)
	}{
		"no mixer": {NoMixer, false, func(r *Request) { r.Mixers = nil }},
		"no salt":  {SaltEnds, false, func(r *Request) { r.Plant.Pile = 3000 * quantity.Pound }},
		"no room":  {TanksFull, false, func(r *Request) { r.Tanks[0].Capacity = 1500 * quantity.Gallon }},
		"no time":  {NoShortage, true, func(r *Request) { r.Start = r.Now + 2*3600 }},
	} {
		r := handYard()
		c.change(&r)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, c.limit, p.Production.Shortage, name)
		require.Equal(t, c.late, p.Production.Late, name)
		require.Positive(t, p.Short, name)
	}
	r := handYard()
	r.Start = r.Now + 2*3600
	p, err := Make(r)
	require.NoError(t, err)
	require.Less(t, p.Production.Latest, r.Now)
}

// The cold: practice ends at 15 F, and down to there a calcium liquid that is on hand is
// proposed where it melts more.
func TestStormCold(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.31}}, OnHand: 10 * quantity.Gallon}}
	for low, practice := range map[float64]bool{20: true, 15: true, 14: false} {
		r.Low = quantity.Fahrenheit(low)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, practice, p.Cold[0].Practice)
		// Where no liquid is in practice, none is proposed.
		require.Equal(t, practice, p.Better != nil)
		if practice {
			require.Greater(t, p.Better.PerVolume, p.Better.Before)
		}
	}
	r.Low = quantity.Celsius(2)
	p, err := Make(r)
	require.NoError(t, err)
	require.Nil(t, p.Better)
	require.Zero(t, p.Cold[0].PerVolume)
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

func TestStormRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		field  string
		change func(*Request)
	}{
		"no routes":  {fault.FieldRoutes, func(r *Request) { r.Routes = nil }},
		"before now": {fault.FieldStart, func(r *Request) { r.Start = r.Now - 1 }},
		"no pump":    {fault.FieldPump, func(r *Request) { r.Plant.Pump = 0 }},
		"no supply":  {fault.FieldSupply, func(r *Request) { r.Plant.Supply = 0 }},
		"no reserve": {fault.FieldReserve, func(r *Request) { r.Reserve = -1 }},
		"no liquid":  {fault.FieldRoutes, func(r *Request) { r.Routes[0].Liquid = "beer" }},
		"no additive": {fault.FieldRoutes, func(r *Request) {
			r.Blends = []yard.Blend{{Name: "b", Additive: "beer", Share: 0.1}}
			r.Routes[0].Liquid = "b"
		}},
		"too strong":  {fault.FieldTarget, func(r *Request) { r.Band = yard.Band{Target: 0.28, Low: 0.27, High: 0.29} }},
		"band upside": {fault.FieldLow, func(r *Request) { r.Band.Low = 0.24 }},
		"hot":         {fault.FieldTemperature, func(r *Request) { r.Temperature = quantity.Celsius(80) }},
	} {
		r := handYard()
		c.change(&r)
		_, err := Make(r)
		faulttest.RequireField(t, err, c.field, name)
	}
}

// BenchmarkStorm plans 500 routes and 50 batches.
func BenchmarkStorm(b *testing.B) {
	r := handYard()
	r.Routes = nil
	for i := range 500 {
		r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint(i), Liquid: balance.BrineName, Lanes: 2.04 * quantity.Mile, Rate: 50 * gallonPerMile})
	}
	r.Tanks[0].Capacity = 60000 * quantity.Gallon
	r.Plant.Pile, r.Start = 200000*quantity.Pound, r.Now+400*3600
	b.ReportAllocs()
	for b.Loop() {
		p, err := Make(r)
		if err != nil || p.Production.Batches != 50 {
			b.Fatal(err, p.Production.Batches)
		}
	}
}

// Among equals those come first that take least of what is scarce. 1,000 gal of brine by
// hand: a blend of 40 % liquid takes about 27 gal of brine a mile, the brine route 40, so
// the blend's 30 miles and (1,000 - 810) / 40 = 4.7 of the other are most.
func TestStormScarceFirst(t *testing.T) {
	r := handYard()
	r.Plant.Pile = 0
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.31}}, OnHand: 5000 * quantity.Gallon}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.4}}
	r.Routes = []yard.Route{
		{Name: "plain", Liquid: balance.BrineName, Lanes: 30 * quantity.Mile, Rate: 40 * gallonPerMile},
		{Name: "mixed", Liquid: "mix", Lanes: 30 * quantity.Mile, Rate: 45 * gallonPerMile},
	}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "mixed", p.Routes[0].Route.Name)
	require.Empty(t, p.Routes[0].Cause)
	require.InDelta(t, 34.7, float64(p.Cost.Lanes/quantity.Mile), 0.2)
}

// Brine is not made for a route that lacks its liquid, its salt or a truck.
func TestStormMakesNothingInVain(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.31}}, OnHand: 100 * quantity.Gallon}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.2}}
	r.Routes = []yard.Route{{Name: "mixed", Liquid: "mix", Lanes: 100 * quantity.Mile, Rate: 40 * gallonPerMile}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Production.Batches) // 100 gal go with 400 of brine, and 1,000 are there
	require.InDelta(t, 500, float64(p.Loaded/quantity.Gallon), 5)

	r = handYard()
	r.Routes[0].Truck = "nosuch"
	p, err = Make(r)
	require.NoError(t, err)
	require.Equal(t, TruckName, p.Routes[0].Cause)
	require.Zero(t, p.Routes[0].Served)
	require.InEpsilon(t, 800, float64(p.Loaded/quantity.Gallon), 1e-9)
	require.Zero(t, p.Production.Batches)
	require.InEpsilon(t, 20*float64(quantity.Mile), float64(p.Cost.Lanes), 1e-9)
}

// Two mixing tanks: small, large, small makes 1,600 gal in 110 min, where small ones
// alone, or the large one first, do not. By hand: fills 10.8 and 36.1 min, mixing 10 and
// 40, pumping off 3 and 10.
func TestStormMixersTakeTurns(t *testing.T) {
	r := handYard()
	r.Mixers = append(r.Mixers, yard.Tank{Name: "small", PumpOff: 300 * quantity.Gallon, MixTime: 600})
	r.Routes[0].Lanes, r.Routes[1].Lanes = 28*quantity.Mile, 30*quantity.Mile // 3,800 gal
	r.Routes[1].Passes, r.Routes[1].Rate = 1, 40*gallonPerMile                // 2,600 in all
	r.Start = r.Now + 115*60
	p, err := Make(r)
	require.NoError(t, err)
	require.False(t, p.Production.Late)
	require.Equal(t, 3, p.Production.Batches)
	require.Zero(t, p.Short)
}

// Few large batches are preferred to many small ones that are done a little sooner.
func TestStormFewBatches(t *testing.T) {
	r := handYard()
	r.Mixers = append(r.Mixers, yard.Tank{Name: "small", PumpOff: 300 * quantity.Gallon, MixTime: 1800})
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, 2, p.Production.Batches)
}

// What the tanks have no room for stays in the mixing tank, and is loaded from there: 1,000
// gal to use in store, of which 2,400 - 1,000 are lacking, room for 200, and a batch is 1,000.
func TestStormLoadsFromTheMixer(t *testing.T) {
	r := handYard()
	r.Tanks[0].Capacity = 1300 * quantity.Gallon
	p, err := Make(r)
	require.NoError(t, err)
	gal := quantity.Gallon
	require.Equal(t, 1, p.Production.Batches) // the mixing tank is not free for a second one
	require.Equal(t, TanksFull, p.Production.Shortage)
	require.InEpsilon(t, 1000, float64(p.Production.Made/gal), 1e-9)
	require.InEpsilon(t, 800, float64(p.Production.InMixers/gal), 1e-9)
	require.InEpsilon(t, 2000, float64(p.Loaded/gal), 1e-6)
	require.InEpsilon(t, 800, float64(p.Short/gal), 1e-6)
	// Without any room a batch is made and kept, and none is pumped off.
	r.Tanks[0].Capacity = 1100 * gal
	p, err = Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 1000, float64(p.Production.InMixers/gal), 1e-9)
	require.Len(t, p.Production.Jobs, 2)
	require.InEpsilon(t, 2000, float64(p.Loaded/gal), 1e-6)
	// And a yard without any storage loads from its mixing tank.
	r.Tanks = nil
	p, err = Make(r)
	require.NoError(t, err)
	require.Equal(t, NoStorage, p.Production.Shortage)
	require.InEpsilon(t, 1000, float64(p.Loaded/gal), 1e-6)
}

// What the tanks have no room for counts as reserve too.
func TestStormLeftInMixer(t *testing.T) {
	r := handYard()
	r.Tanks[0].Capacity = 2500 * quantity.Gallon
	r.Routes = r.Routes[1:] // 800 gal
	r.Reserve = 2000 * quantity.Gallon
	p, err := Make(r)
	require.NoError(t, err)
	require.InDelta(t, 600, float64(p.Production.InMixers/quantity.Gallon), 1)
	require.Zero(t, p.ReserveGap)
	require.Zero(t, p.Short)
}

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

// A liquid that is bought is that liquid, even where it is plain salt brine.
func TestStormBoughtBrine(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: balance.SaltBrine(0.2).Named("lot")}}
	r.Tanks = append(r.Tanks, yard.Tank{Name: "lb", Capacity: 3000 * quantity.Gallon, Contents: new(2000 * quantity.Gallon), LiquidName: "lot", Liquid: new(balance.SaltBrine(0.2))})
	r.Routes = []yard.Route{{Name: "a", Liquid: "lot", Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile}}
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Short)
	require.Nil(t, p.Supply[len(p.Supply)-1].Fix)
}

// Refusals in words, and of what is found when the yard is taken stock of.
func TestStormRefusalsInWords(t *testing.T) {
	cal := func(s float64) []yard.Liquid {
		return []yard.Liquid{{Liquid: balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: s}}, OnHand: 10 * quantity.Gallon}}
	}
	for _, c := range []struct {
		field, words string
		change       func(*Request)
	}{
		{fault.FieldRoutes, "no liquid is named beer; allowed: brine, cal, mix", func(r *Request) {
			r.Others, r.Blends, r.Routes[0].Liquid = cal(0.3), []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.1}}, "beer"
		}},
		{fault.FieldParts, "not all of the blend stays dissolved at 60 F", func(r *Request) {
			r.Others, r.Blends, r.Routes[0].Liquid = cal(0.38), []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.5}}, "mix"
			r.Band = yard.BandAround(0.255)
		}},
		{fault.FieldStrength, "allowed: 0% to 26.39% (saturated)", func(r *Request) { r.Tanks[0].Liquid = new(balance.SaltBrine(0.3)) }},
		{fault.FieldLow, "allowed: -94 F to 122 F", func(r *Request) { r.Low = quantity.Celsius(-71) }},
		{fault.FieldWaterTemp, "allowed: -13 F to 122 F", func(r *Request) { r.Plant.WaterTemp = quantity.Celsius(60) }},
		{fault.FieldRoutes, "more salt dissolved in cal than the model can reckon with; allowed: 50% in all", func(r *Request) {
			r.Others, r.Routes[0].Liquid = cal(0.53), "cal"
		}},
		{fault.FieldRoutes, "the additive beer of blend mix is no liquid of the yard; allowed: brine, mix", func(r *Request) {
			r.Blends, r.Routes[0].Liquid = []yard.Blend{{Name: "mix", Additive: "beer", Share: 0.1}}, "mix"
		}},
		{fault.FieldSupply, "without the flow of fresh water", func(r *Request) { r.Plant.Supply = 0 }},
	} {
		r := handYard()
		c.change(&r)
		_, err := Make(r)
		faulttest.RequireRefusal(t, err, c.field, c.words)
	}
}

// A mixing tank that pumps nothing off is none; an empty storage tank holds nothing and
// takes all its capacity.
func TestStormIdleTanks(t *testing.T) {
	r := handYard()
	r.Mixers[0].PumpOff, r.Plant.Supply = 0, 0
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
	require.InEpsilon(t, 200*9.8227*0.45359237, p.Balance.Left.Mass, 1e-4)
}

// A plan ends at so many batches, and says so.
func TestStormTooManyBatches(t *testing.T) {
	r := handYard()
	r.Mixers[0].PumpOff, r.Mixers[0].MixTime = quantity.Gallon/100, 1
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, TooManyRuns, p.Production.Shortage)
	require.Equal(t, mostStormBatches, p.Production.Batches)
	require.InEpsilon(t, mostStormBatches/100.0, float64(p.Production.Made/quantity.Gallon), 1e-9)
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

// A liquid that drops salt out of brine is not proposed, nor one that melts less.
func TestStormNothingBetter(t *testing.T) {
	for _, c := range []solution.Composition{{CaCl2: 0.4}, {CaCl2: 0.05}, {KCl: 0.2}} {
		r := handYard()
		r.Band = yard.BandAround(0.262)
		r.Others = []yard.Liquid{{Liquid: balance.Liquid{Name: "other", Composition: c}, OnHand: 10 * quantity.Gallon}}
		p, err := Make(r)
		require.NoError(t, err)
		require.Nil(t, p.Better, "%+v", c)
	}
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

// All is to be ready at once: then what stands in store is all there is.
func TestStormAtOnce(t *testing.T) {
	r := handYard()
	r.Start = r.Now
	p, err := Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 1000, float64(p.Loaded/quantity.Gallon), 1e-9)
	require.True(t, p.Production.Late)
}

// Brine of 23.3 % stays clear to its eutectic, -6 F (common practice, no source: -21.1
// C), and melts at 20 F until it is as dilute as what freezes there: by the lever, of 1 kg
// with 0.233 of salt.
func TestStormColdByHand(t *testing.T) {
	r := handYard()
	for low, clear := range map[float64]bool{20: true, -4: true, -8: false} {
		r.Low = quantity.Fahrenheit(low)
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, clear, p.Cold[0].Clear, "%g F", low)
	}
	r.Low = quantity.Fahrenheit(20)
	p, err := Make(r)
	require.NoError(t, err)
	melted := float64(p.Cold[0].PerVolume / balance.BrineDensity(0.233, r.Temperature))
	require.InEpsilon(t, 0.233, float64(p.Cold[0].Diluted)*(1+melted), 1e-12)
	diluted, err := brine.Freeze(brine.FreezeRequest{
		Liquid: balance.SaltBrine(p.Cold[0].Diluted), StoredAt: quantity.Fahrenheit(60),
	})
	require.NoError(t, err)
	require.InDelta(t, 20, quantity.Temperature(diluted.Cold.Ice.Temperature).Fahrenheit(), 1e-3)
}

// The best of the yard's liquids is proposed, of those on hand that melt a tenth more than
// brine does. A fifth of calcium chloride melts more the stronger it is: 28 % makes 6 %
// more, 32 and 34 % make 14 and 17 (the model's own).
func TestStormBestOfTheLiquids(t *testing.T) {
	r := handYard()
	for _, c := range []struct {
		name     string
		strength float64
		onHand   quantity.Volume
	}{{"a", 0.32, 1}, {"b", 0.34, 1}, {"c", 0.32, 1}, {"gone", 0.36, 0}} {
		r.Others = append(r.Others, yard.Liquid{Liquid: wild.Calcium(c.strength).Named(c.name), OnHand: c.onHand})
	}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "b", p.Better.Additive)
	require.Len(t, p.Supply, 4) // three on hand, and the tank
	onHand := p.Supply[0]
	require.Equal(t, SupplyLine{Where: "on hand", Liquid: "a", Usable: 1, First: onHand.First, Clear: true}, onHand)
	r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.28).Named("weak"), OnHand: 1}}
	p, err = Make(r)
	require.NoError(t, err)
	require.Nil(t, p.Better)
}

// Each tank is judged at its own strength: at 0 F brine of 20 % has ice in it (from 1.9
// F; the CRC Handbook's -16.46 C), and that of 23.3 % has none.
func TestStormOvernight(t *testing.T) {
	r := handYard()
	r.Low = quantity.Fahrenheit(0)
	weak := r.Tanks[0]
	weak.Name, weak.Liquid = "weak", new(balance.SaltBrine(0.20))
	sheet := &solution.Product{Solute: 0.5, Density: 1280, Freezing: []solution.FreezingPoint{{Solute: 0.4, Temperature: 258}}}
	r.Others = []yard.Liquid{{Liquid: balance.OfProduct("sheet", sheet).Named("sheet"), OnHand: 1}}
	r.Tanks = append(r.Tanks, weak)
	p, err := Make(r)
	require.NoError(t, err)
	lines := map[string]SupplyLine{}
	for _, l := range p.Supply {
		lines[l.Where] = l
	}
	require.True(t, lines["store"].Clear)
	require.False(t, lines["weak"].Clear)
	require.InDelta(t, 273.15-16.46, lines["weak"].First.Temperature, 0.3)
	require.Equal(t, solution.Ice, lines["weak"].First.Solid)
	// A data sheet that ends above the low says nothing of it.
	require.False(t, lines["on hand"].Clear)
	r.Low = quantity.Celsius(-10)
	p, err = Make(r)
	require.NoError(t, err)
	require.True(t, p.Supply[0].Clear)
	require.False(t, p.Supply[0].First.Found)
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

// Two pre-wetted routes share a pile: 4,000 lb each of 6,000 leave half for the second.
// Chloride of the salt by hand, with that of the brine: 35.453 / 58.443 of either.
func TestStormSharesThePile(t *testing.T) {
	r := handYard()
	wet := yard.Route{Name: "one", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile,
		Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
		SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))}
	two := wet
	two.Name = "two"
	r.Routes, r.Plant.Pile = []yard.Route{wet, two}, 6000*quantity.Pound
	p, err := Make(r)
	require.NoError(t, err)
	require.Empty(t, p.Routes[0].Cause)
	require.Equal(t, DrySaltName, p.Routes[1].Cause)
	require.InEpsilon(t, 0.5, float64(p.Routes[1].Served/p.Routes[1].Demanded), 1e-12)
	require.InEpsilon(t, 6000, float64(p.DrySalt/quantity.Pound), 1e-12)
	require.InEpsilon(t, (6000+30*9.8227*0.233)*35.453/58.443*0.45359237, float64(p.Cost.Chloride), 1e-4)
}

// Two routes of one liquid that stands for one of them: what is wanted adds up, and brine is
// made for what can be mixed. 20 % of 2,000 gal are 400 each of 400 on hand; the first
// takes them, with 1,600 gal of brine of which 1,000 are there.
func TestStormLiquidForOneOfTwo(t *testing.T) {
	r := handYard()
	r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.31).Named("cal"), OnHand: 401 * quantity.Gallon}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.2}}
	route := yard.Route{Name: "one", Liquid: "mix", Lanes: 50 * quantity.Mile, Rate: 40 * gallonPerMile}
	two := route
	two.Name = "two"
	r.Routes = []yard.Route{route, two}
	p, err := Make(r)
	require.NoError(t, err)
	// Volumes shrink by some parts in a thousand in mixing.
	require.InEpsilon(t, 800, float64(p.Liquids[0].Wanted/quantity.Gallon), 5e-3)
	require.Equal(t, 1, p.Production.Batches)
	require.InEpsilon(t, 600, float64(p.Production.Wanted/quantity.Gallon), 2e-2)
}

// Scarce brine goes by what a lane takes, not by what the route takes. By hand: 30 gal a
// mile over 40 miles come before 60 over 10, and after a reserve of 200 of 1,000 gal 800
// of their 1,200 are there.
func TestStormByTheLane(t *testing.T) {
	r := handYard()
	r.Plant.Pile, r.Reserve = 0, 200*quantity.Gallon
	r.Routes = []yard.Route{
		{Name: "short", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 60 * gallonPerMile},
		{Name: "long", Liquid: balance.BrineName, Lanes: 40 * quantity.Mile, Rate: 30 * gallonPerMile},
	}
	p, err := Make(r)
	require.NoError(t, err)
	require.Equal(t, "long", p.Routes[0].Route.Name)
}

// Brine goes into the tank with most room and comes out of the fullest.
func TestStormTanksInTurn(t *testing.T) {
	r := handYard()
	tank := func(name string, contents float64) yard.Tank {
		return yard.Tank{Name: name, Capacity: 1000 * quantity.Gallon, Contents: new(quantity.Volume(contents) * quantity.Gallon), LiquidName: balance.BrineName, Liquid: new(balance.SaltBrine(0.233))}
	}
	r.Tanks = []yard.Tank{tank("middle", 500), tank("full", 900), tank("low", 100)}
	held := func(y *stormYard) (out []float64) {
		for _, s := range y.tanks {
			out = append(out, math.Round(float64(s.volume(r.Temperature)/quantity.Gallon)))
		}
		return out
	}
	y, err := newStormYard(r)
	require.NoError(t, err)
	y.store(950 * quantity.Gallon)
	require.Equal(t, []float64{550, 900, 1000}, held(y))
	y, err = newStormYard(r)
	require.NoError(t, err)
	y.draw(1000 * quantity.Gallon)
	require.Equal(t, []float64{400, 0, 100}, held(y))
}

// Larger batches are listed first.
func TestStormRunsInOrder(t *testing.T) {
	r := handYard()
	small := r.Mixers[0]
	small.Name, small.PumpOff = "small", 300*quantity.Gallon
	r.Mixers = []yard.Tank{small, r.Mixers[0]}
	y, err := newStormYard(r)
	require.NoError(t, err)
	runs, err := y.runs()
	require.NoError(t, err)
	require.Equal(t, "mixer", runs[0].Mixer.Name)
	require.Equal(t, "small", runs[1].Mixer.Name)
}

// What stands in store takes nothing off the pile: 900 and 20 gal of 1,000 need no batch,
// so of 5,000 lb 4,000 go to pre-wetting, though a batch of 2,289 lb would serve what
// comes last; that gets 80 gal.
func TestStormStoreComesFirst(t *testing.T) {
	r := handYard()
	r.Routes = []yard.Route{
		{Name: "plain", Liquid: balance.BrineName, Lanes: 20 * quantity.Mile, Rate: 45 * gallonPerMile, Priority: 1},
		{Name: "wet", Liquid: balance.BrineName, Lanes: 16 * quantity.Mile, Priority: 2,
			Prewet:   quantity.VolumePerMass(10 * float64(quantity.Gallon) / (2000 * float64(quantity.Pound))),
			SaltRate: quantity.MassPerLength(250 * float64(quantity.Pound) / float64(quantity.Mile))},
		{Name: "last", Liquid: balance.BrineName, Lanes: 20 * quantity.Mile, Rate: 45 * gallonPerMile, Priority: 3},
	}
	r.Plant.Pile = 5000 * quantity.Pound
	p, err := Make(r)
	require.NoError(t, err)
	require.Zero(t, p.Production.Batches)
	require.InEpsilon(t, 4000, float64(p.DrySalt/quantity.Pound), 1e-12)
	require.InEpsilon(t, 80, float64(p.Routes[2].Served/quantity.Gallon), 1e-9)
}

// The reserve makes brine scarce: of 1,000 gal 500 are kept back, and 670 are wanted. Then
// a blend of 40 % liquid, with 27 gal of brine a mile, comes before brine of 40. Without
// the reserve nothing is scarce, and it comes after, with its 45.
func TestStormReserveIsScarce(t *testing.T) {
	for reserve, first := range map[quantity.Volume]string{500 * quantity.Gallon: "mixed", 0: "plain"} {
		r := handYard()
		r.Plant.Pile, r.Reserve = 0, reserve
		r.Others = []yard.Liquid{{Liquid: wild.Calcium(0.31).Named("cal"), OnHand: 5000 * quantity.Gallon}}
		r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: 0.4}}
		r.Routes = []yard.Route{
			{Name: "plain", Liquid: balance.BrineName, Lanes: 10 * quantity.Mile, Rate: 40 * gallonPerMile},
			{Name: "mixed", Liquid: "mix", Lanes: 10 * quantity.Mile, Rate: 45 * gallonPerMile},
		}
		p, err := Make(r)
		require.NoError(t, err)
		require.Equal(t, first, p.Routes[0].Route.Name)
	}
}

// Three mixing tanks keep the pump busy from the first batch on: each is full again before
// the two others are done, as they fill in 3.4, 6.8 and 11.3 min and hold the pump for 13,
// 26 and 50. Of the 7,300 gal the smallest would take 25 batches; the search keeps the
// beginnings that give most for their time, and comes by with ten.
func TestStormKeepsThePumpBusy(t *testing.T) {
	r := handYard()
	r.Mixers = append(r.Mixers, yard.Tank{Name: "small", PumpOff: 300 * quantity.Gallon, MixTime: 600},
		yard.Tank{Name: "middle", PumpOff: 600 * quantity.Gallon, MixTime: 1200})
	r.Routes[0].Lanes, r.Tanks[0].Capacity, r.Plant.Pile = 150*quantity.Mile, 20000*quantity.Gallon, 90000*quantity.Pound
	r.Plant.Supply, r.Start = 80*quantity.GallonPerMinute, r.Now+40*3600
	p, err := Make(r)
	require.NoError(t, err)
	require.InEpsilon(t, 7300, float64(p.Production.Wanted/quantity.Gallon), 1e-9)
	require.InDelta(t, 0, float64(p.Production.IdleLater), 1e-6)
	require.LessOrEqual(t, p.Production.Batches, 10)
}
