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

// drawMixers draws up to three mixing tanks of any size, an empty store of 2 to 15 m3, and a
// time and a pile that may not suffice.
func drawMixers(seed uint64) (r Request, wanted quantity.Volume) {
	g := draws{rand.New(rand.NewPCG(seed, 5))}
	r = handYard()
	r.Mixers = nil
	for i := range 1 + g.IntN(3) {
		r.Mixers = append(r.Mixers, yard.Tank{Name: fmt.Sprint("m", i), PumpOff: quantity.Volume(g.between(1, 4)), MixTime: quantity.Duration(g.between(600, 4000))})
	}
	r.Supply.Flow, r.Pump.Flow = quantity.Flow(g.between(0.001, 0.006)), quantity.Flow(g.between(0.002, 0.02))
	r.Tanks = []yard.Tank{{Name: "store", Capacity: quantity.Volume(g.between(2, 15))}}
	*r.Pile.OnHand = quantity.Mass(g.between(500, 8000))
	wanted = quantity.Volume(g.between(1, 9))
	r.Routes = []yard.Route{{Name: "all", Liquid: balance.BrineName, Lanes: 1000, Rate: quantity.RatePerLength(wanted / 1000)}}
	r.Start = r.Now + quantity.Duration(g.between(0, 30000))
	return r, wanted
}

// orders tries every order of batches, each on its own from the first batch on, and
// returns the most that one makes in time, and when that is done, a batch counting
// as a quarter of an hour. Such orders have six batches at most here.
func orders(r Request, wanted quantity.Volume) (most quantity.Volume, cost quantity.Duration) {
	y := replayed{r: r, target: balance.BrineDensity(r.Band.Target, r.Temperature)}
	cost = r.Now
	var try func(order []int)
	try = func(order []int) {
		supply, pump, free := r.Now, r.Now, make([]quantity.Duration, len(r.Mixers))
		room, pile, made := r.Tanks[0].Capacity, *r.Pile.OnHand, quantity.Volume(0)
		keeps := make([]bool, len(r.Mixers))
		for _, i := range order {
			m := r.Mixers[i]
			salt, water := y.batch(m.PumpOff)
			if pile -= salt; keeps[i] || pile < 0 {
				return
			}
			off := min(room, m.PumpOff)
			supply = max(supply, free[i]) + quantity.Duration(float64(water)/float64(r.Supply.Flow))
			pump = max(supply, pump) + m.MixTime + quantity.Duration(float64(off)/float64(r.Pump.Flow))
			room, free[i], keeps[i], made = room-off, pump, off < m.PumpOff, made+m.PumpOff
		}
		if pump > r.Start {
			return
		}
		enough, c := min(made, wanted), pump+quantity.Duration(len(order))*900
		if enough > most+1e-9 || enough > most-1e-9 && c < cost {
			most, cost = enough, c
		}
		for i := range r.Mixers {
			if made < wanted {
				try(append(order[:len(order):len(order)], i))
			}
		}
	}
	try(nil)
	return most, cost
}

// On 1,500 generated yards the search is as good as the best of all orders, but for four, in
// which it makes up to 2.1 % less: it keeps the most promising beginnings, not all.
func TestStormAgainstAllOrders(t *testing.T) {
	worse, late, short, kept := 0, 0, 0, 0
	for seed := range uint64(1500) {
		r, wanted := drawMixers(seed)
		p, err := Make(r)
		require.NoError(t, err)
		pr := p.Production
		most, cost := orders(r, wanted)
		got, gotCost := min(wanted, pr.Made), pr.DoneAt+quantity.Duration(pr.Batches)*900
		require.GreaterOrEqual(t, float64(got), 0.979*float64(most), "seed %d", seed)
		require.LessOrEqual(t, float64(got), float64(most)+1e-9, "seed %d makes more than any order", seed)
		if got > most-1e-9 {
			require.GreaterOrEqual(t, float64(gotCost), float64(cost)-1e-6, "seed %d is done sooner than any order", seed)
		}
		if got < most-1e-9 || gotCost > cost+1e-6 {
			worse++
		}
		for count, holds := range map[*int]bool{&late: pr.Late, &short: pr.Shortage == SaltEnds, &kept: pr.InMixers > 0} {
			if holds {
				*count++
			}
		}
	}
	require.LessOrEqual(t, worse, 4)
	for _, n := range []int{late, short, kept} {
		require.Greater(t, n, 100)
	}
}
