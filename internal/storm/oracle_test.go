package storm

import (
	"fmt"
	"math/rand/v2"
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
	r.Supply.Flow, r.Pump.Flow = quantity.Flow(between(10, 80))*quantity.GallonPerMinute, quantity.Flow(between(30, 300))*quantity.GallonPerMinute
	r.Pile.Quality = yard.RockSalt{Purity: quantity.Strength(between(0.9, 1)), Moisture: quantity.Strength(between(0, 0.04))}
	*r.Pile.OnHand = quantity.Mass(between(0, 60000)) * quantity.Pound
	for i := range g.IntN(4) {
		r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: gallons(150, 2500), Empty: 9000, Gross: quantity.Mass(between(9500, 16000))})
	}
	r.Prices = yard.Prices{Salt: priced[quantity.PricePerMass](g), Water: priced[quantity.PricePerVolume](g), Labour: priced[quantity.PricePerTime](g), Driving: priced[quantity.PricePerLength](g)}
	r.Others[0].Price = priced[quantity.PricePerVolume](g)
	if len(r.Trucks) > 0 {
		r.Trucks[0].Speed = quantity.Speed(between(3, 20))
		r.Routes[len(r.Routes)-1].Truck = fmt.Sprint("k", g.IntN(4))
	}
	return r
}

// priced is a price, or none.
func priced[P ~float64](g *rand.Rand) *P {
	if g.IntN(4) == 0 {
		return nil
	}
	return new(P(g.Float64()))
}

// Over 1,000 generated yards and storms the plan is what its replay finds.
func TestStormIsItsReplay(t *testing.T) {
	made, short, loads := 0, 0, 0
	for seed := range uint64(1000) {
		r := drawStorm(seed)
		p, err := Make(r)
		require.NoError(t, err, "seed %d", seed)
		replay(t, fmt.Sprint("seed ", seed), r, p)
		requireTanks(t, seed, r)
		made += p.Production.Batches
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

// requireTanks follows the tanks, which a plan does not name, through production and loading.
func requireTanks(t *testing.T, seed uint64, r Request) {
	t.Helper()
	y, err := takeStock(r)
	require.NoError(t, err)
	least := map[string]quantity.Volume{}
	for _, s := range y.tanks {
		least[s.tank.Name] = min(s.tank.DeadVolume, s.volume())
	}
	var p Plan
	require.NoError(t, y.schedule(&p))
	y.stow(p.Production)
	for _, s := range y.tanks {
		require.LessOrEqual(t, float64(s.volume()), float64(s.tank.Capacity)*(1+1e-9), "seed %d: %s runs over", seed, s.tank.Name)
	}
	y.allocate(&p)
	for _, s := range y.tanks {
		require.GreaterOrEqual(t, float64(s.volume()), float64(least[s.tank.Name])*(1-1e-9)-1e-12, "seed %d: %s below its dead volume", seed, s.tank.Name)
	}
	for _, o := range y.others {
		require.GreaterOrEqual(t, float64(o.left), -1e-12)
	}
}
