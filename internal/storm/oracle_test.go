package storm

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

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
