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

// draws are random numbers that a seed fixes.
type draws struct{ *rand.Rand }

func (g draws) between(low, high float64) float64 { return low + (high-low)*g.Float64() }

func (g draws) gallons(low, high float64) quantity.Volume {
	return quantity.Volume(g.between(low, high)) * quantity.Gallon
}

// drawStorm makes a yard and a storm from a seed: any number of tanks, mixers, trucks
// and routes, some of them short of one thing or another.
func drawStorm(seed uint64) Request {
	g := draws{rand.New(rand.NewPCG(seed, 99))}
	r := handYard()
	r.Start = r.Now + quantity.Duration(g.between(0, 16*3600))
	if g.IntN(2) == 0 {
		r.DownBy = r.Start + quantity.Duration(g.between(1800, 12*3600))
	}
	r.Reserve = g.gallons(0, 800)
	cal := balance.Liquid{Name: "cal", Composition: solution.Composition{CaCl2: 0.3}}
	r.Others = []yard.Liquid{{Liquid: cal, OnHand: g.gallons(0, 900), Price: priced[quantity.PricePerVolume](g)}}
	r.Blends = []yard.Blend{{Name: "mix", Additive: "cal", Share: quantity.Fraction(g.between(0.02, 0.2))}}
	r.Routes, r.Tanks, r.Mixers, r.Trucks = g.routes(), g.tanks(cal), nil, nil
	for i := range g.IntN(4) {
		r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint("m", i), PumpOff: g.gallons(150, 2500), MixTime: quantity.Duration(g.between(600, 4000))})
	}
	r.Supply.Flow, r.Pump.Flow = quantity.Flow(g.between(10, 80))*quantity.GallonPerMinute, quantity.Flow(g.between(30, 300))*quantity.GallonPerMinute
	perMinute := func(low, high float64) quantity.Flow {
		return quantity.Flow(g.between(low, high)) * quantity.GallonPerMinute
	}
	if g.IntN(3) == 0 {
		r.LoadFlow, r.OffFlow = perMinute(30, 300), map[string]quantity.Flow{"m0": perMinute(30, 300)}
	}
	if g.IntN(3) == 0 {
		r.Supply.Tank = g.gallons(200, 4000)
		if g.IntN(2) == 0 {
			r.Supply.TankFlow = perMinute(5, 200)
		}
	}
	r.Pile.Quality = yard.RockSalt{Purity: quantity.Strength(g.between(0.9, 1)), Moisture: quantity.Strength(g.between(0, 0.04))}
	*r.Pile.OnHand = quantity.Mass(g.between(0, 60000)) * quantity.Pound
	for i := range g.IntN(4) {
		r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: g.gallons(150, 2500), Empty: 9000, Gross: quantity.Mass(g.between(9500, 16000))})
	}
	if len(r.Trucks) > 0 {
		r.Trucks[0].Speed = quantity.Speed(g.between(3, 20))
		r.Routes[len(r.Routes)-1].Trucks = []string{fmt.Sprint("k", g.IntN(4)), fmt.Sprint("k", g.IntN(4))} // there may be none of the name
	}
	r.Prices = yard.Prices{
		Salt: priced[quantity.PricePerMass](g), Water: priced[quantity.PricePerVolume](g),
		Labour: priced[quantity.PricePerTime](g), Driving: priced[quantity.PricePerLength](g),
	}
	return r
}

// routes draws lanes, areas and pre-wetted lanes.
func (g draws) routes() []yard.Route {
	liquids := []string{balance.BrineName, balance.BrineName, "cal", "mix"}
	var routes []yard.Route
	for i := range 1 + g.IntN(8) {
		r := yard.Route{
			Name: fmt.Sprint("r", i), Liquid: liquids[g.IntN(len(liquids))], Lanes: quantity.Length(g.between(1, 40)) * quantity.Mile,
			Rate: quantity.RatePerLength(g.between(15, 60)) * gallonPerMile, Passes: 1 + g.IntN(3), Priority: g.IntN(3),
		}
		switch g.IntN(10) {
		case 0:
			r.Rate, r.Prewet, r.SaltRate = 0, quantity.VolumePerMass(g.between(2e-5, 8e-5)), quantity.MassPerLength(g.between(0.03, 0.1))
		case 1:
			r.Rate, r.Lanes, r.Area, r.AreaRate = 0, 0, quantity.Area(g.between(2000, 30000)), quantity.RatePerArea(g.between(2e-5, 8e-5))
		}
		routes = append(routes, r)
	}
	return routes
}

// tanks draws storage tanks at the ends of the band and outside, and some of a bought
// liquid.
func (g draws) tanks(cal balance.Liquid) []yard.Tank {
	var tanks []yard.Tank
	for i := range g.IntN(4) {
		t := yard.Tank{Name: fmt.Sprint("t", i), Capacity: g.gallons(500, 8000), LiquidName: balance.BrineName, Liquid: new(balance.SaltBrine(quantity.Strength(g.between(0.225, 0.245))))}
		t.DeadVolume = t.Capacity * quantity.Volume(g.between(0, 0.1))
		t.Contents = new(t.Capacity * quantity.Volume(g.between(0, 1)))
		if g.IntN(4) == 0 {
			t.LiquidName, t.Liquid = "cal", new(cal)
		}
		tanks = append(tanks, t)
	}
	return tanks
}

// priced is a price, or none.
func priced[P ~float64](g draws) *P {
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
