package storm

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// every tries every order of batches and loads of a small yard with room for all of it: in US units and minutes, by itself. Its
// rules are those of docs/storm.md; it knows none of the planner's.
type every struct {
	gpm, water float64      // of the pump, and of the supply for a gallon of brine
	mixers     [][2]float64 // gallons, minutes of mixing
	trucks     [][2]float64 // gallons, miles a minute
	routes     [][2]float64 // gallons, miles of lane a gallon
	by         float64
	best       float64
}

type everyNow struct {
	pump, supply, brine, wanted, down float64
	free, back, left                  []float64
}

func changedAt(list []float64, i int, x float64) []float64 {
	list = append([]float64(nil), list...)
	list[i] = x
	return list
}

func (y *every) try(s everyNow) {
	y.best = max(y.best, s.down)
	for i, r := range y.routes {
		for k, truck := range y.trucks {
			start := max(s.pump, s.back[k])
			each := 1/y.gpm + 2*r[1]/truck[1]
			v := min(s.left[i], truck[0], s.brine, (y.by-start)/each)
			if v < 1 || v < min(0.02*truck[0], s.left[i]) {
				continue
			}
			n := s
			n.pump = start + v/y.gpm
			n.back, n.left = changedAt(s.back, k, start+v*each), changedAt(s.left, i, s.left[i]-v)
			n.brine, n.down = s.brine-v, s.down+v
			y.try(n)
		}
	}
	for i, m := range y.mixers {
		if s.wanted < 1 || s.pump > y.by {
			break
		}
		n := s
		n.supply = max(s.supply, s.free[i]) + m[0]*y.water
		n.pump = max(s.pump, n.supply) + m[1] + m[0]/y.gpm
		n.free = changedAt(s.free, i, n.pump)
		n.brine, n.wanted = s.brine+m[0], s.wanted-m[0]
		y.try(n)
	}
}

// drawSmall makes a small yard with its storm, and the same for every.
func drawSmall(seed uint64) (Request, *every) {
	g := draws{rand.New(rand.NewPCG(seed, 77))}
	r := handYard()
	water := float64(9.8227 * 0.767 / 8.33720)
	y := &every{gpm: 100, water: water / 25, by: g.between(120, 300)}
	r.Start, r.DownBy, r.Reserve = r.Now, r.Now+quantity.Duration(y.by*60), 0
	r.Tanks[0].Capacity, r.Mixers, r.Trucks, r.Routes = 50000*quantity.Gallon, nil, nil, nil
	for i := range 1 + g.IntN(2) {
		gal, mix := g.between(600, 1500), g.between(20, 40)
		y.mixers = append(y.mixers, [2]float64{gal, mix})
		r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint("m", i), PumpOff: quantity.Volume(gal) * quantity.Gallon, MixTime: quantity.Duration(mix * 60)})
	}
	for i := range 1 + g.IntN(2) {
		gal, mph := g.between(700, 1500), g.between(15, 40)
		y.trucks = append(y.trucks, [2]float64{gal, mph / 60})
		r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: quantity.Volume(gal) * quantity.Gallon, Speed: quantity.Speed(mph) * quantity.MilePerHour})
	}
	for i := range 1 + g.IntN(2) {
		miles, rate := g.between(15, 35), g.between(30, 60)
		y.routes = append(y.routes, [2]float64{miles * rate, 1 / rate})
		r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint("r", i), Liquid: balance.BrineName, Lanes: quantity.Length(miles) * quantity.Mile, Rate: quantity.RatePerLength(rate) * gallonPerMile, Passes: 1})
	}
	return r, y
}

// Of small yards no order of batches and loads brings more down in time than the plan.
func TestStormAgainstEveryOrder(t *testing.T) {
	proven := 0
	for seed := range uint64(150) {
		r, y := drawSmall(seed)
		s := everyNow{brine: 1000, free: make([]float64, len(y.mixers)), back: make([]float64, len(y.trucks))}
		s.wanted = -s.brine
		for _, route := range y.routes {
			s.left = append(s.left, route[0])
			s.wanted += route[0]
		}
		y.try(s)
		p, err := Make(r)
		require.NoError(t, err)
		got := float64(p.InTime / quantity.Gallon)
		require.GreaterOrEqual(t, got, y.best*(1-1e-4), "seed %d", seed)
		require.LessOrEqual(t, got, float64(p.Bound/quantity.Gallon)*(1+1e-9), "seed %d", seed)
		if p.Proven {
			proven++
		}
	}
	t.Log(proven, "of 150 searched to the end")
	require.Greater(t, proven, 100)
}

// Of twenty routes that trucks cannot all serve in time most plans stay within a twentieth of the bound. The others make fifteen
// batches in one mixing tank while trucks load: the bound knows of the pump's hours, and not of the trucks that wait for it.
func TestStormNearItsBound(t *testing.T) {
	worst, near := 0.0, 0
	for seed := range uint64(40) {
		g := draws{rand.New(rand.NewPCG(seed, 20))}
		r := handYard()
		r.Reserve, r.Pile.OnHand, r.Routes, r.Trucks = 0, nil, nil, nil
		r.Tanks[0].Capacity, r.Tanks[0].Contents = 60000*quantity.Gallon, new(g.gallons(5000, 30000))
		for i := range 20 {
			r.Routes = append(r.Routes, yard.Route{Name: fmt.Sprint(i), Liquid: balance.BrineName, Lanes: quantity.Length(g.between(10, 60)) * quantity.Mile, Rate: quantity.RatePerLength(g.between(25, 50)) * gallonPerMile, Passes: 1})
		}
		for i := range 2 + g.IntN(4) {
			r.Trucks = append(r.Trucks, yard.Truck{Name: fmt.Sprint("k", i), Tank: g.gallons(600, 3000), Speed: quantity.Speed(g.between(20, 35)) * quantity.MilePerHour})
		}
		r.Start = r.Now
		r.DownBy = r.Start + quantity.Duration(g.between(6, 12)*3600)
		p, err := Make(r)
		require.NoError(t, err)
		gap := 1 - float64(p.InTime/p.Bound)
		if worst = max(worst, gap); gap <= 0.05 {
			near++
		}
	}
	t.Logf("%d of 40 within a twentieth, the worst %.3f below the bound", near, worst)
	require.GreaterOrEqual(t, near, 32)
	require.Less(t, worst, 0.13)
}
