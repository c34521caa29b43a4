package state

import (
	"math/rand/v2"
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

// anyCell is empty, nothing, below nothing, beyond every yard, or an amount.
func anyCell[Q ~float64](g *rand.Rand, usual Q) *Q {
	q := []Q{0, 0, usual, usual, usual, usual * Q(g.Float64()), usual * Q(g.Float64()), -usual, usual * 1e12}[g.IntN(9)]
	if g.IntN(2) == 0 {
		return nil
	}
	return &q
}

func anyEntry(g *rand.Rand, number int) *journal.Entry {
	word := func(words ...string) string { return words[g.IntN(len(words))] }
	kinds := append(journal.Kinds(), "", "beer")
	e := &journal.Entry{
		Number: number, Kind: kinds[g.IntN(len(kinds))], Time: statetest.Noon().Add(time.Duration(number) * time.Minute),
		Tank: word("", "mixer", "north", "pile", "spare"), From: word("", "mixer", "north", "pile"), Liquid: word("", "cal31", "brine", "what"),
		Truck: word("", "big-sprayer"), Route: word("", "ridge-road"), Line: word("", "header"), Scale: word("", "sg", "hydrometer", "ladle"),
		Volume: anyCell(g, quantity.Volume(3)), Water: anyCell(g, quantity.Volume(2)), Salt: anyCell(g, quantity.Mass(900)),
		Temp: anyCell(g, quantity.Temperature(290)), Reading: anyCell(g, 1.17), Hours: anyCell(g, quantity.Duration(3600)), Cost: anyCell(g, quantity.Money(100)),
		Purity: anyCell(g, quantity.Strength(0.96)), Moisture: anyCell(g, quantity.Strength(0.02)),
	}
	if g.IntN(3) > 0 {
		e.NaCl = anyCell(g, quantity.Strength(0.3))
	}
	if g.IntN(3) == 0 {
		e.CaCl2, e.MgCl2, e.KCl = anyCell(g, quantity.Strength(0.4)), anyCell(g, quantity.Strength(0.3)), anyCell(g, quantity.Strength(0.2))
	}
	return e
}

// Whatever an entry says, the state after it can be asked: nothing panics, no vessel holds less than
// nothing, and what stands in it is a liquid that can be.
func TestAnyEntry(t *testing.T) {
	for seed := range uint64(30) {
		g := rand.New(rand.NewPCG(seed, 9))
		y := filedYard()
		s := New(y)
		for i := range 2000 {
			s.Apply(anyEntry(g, i+1))
			for stock := range s.stocks() {
				require.GreaterOrEqual(t, stock.Mass, quantity.Mass(0))
				require.True(t, stock.Mass == 0 || sound(stock.Liquid), "seed %d, entry %d: %s holds %+v", seed, i+1, stock.Name, stock.Liquid)
			}
		}
		now := s.Over(y)
		for _, tank := range now.Tanks {
			if tank.Liquid != nil && tank.Contents != nil && *tank.Contents > 0 {
				_, err := tank.Liquid.Cold()
				require.NoError(t, err)
			}
		}
		s.Agenda(y, statetest.Noon().AddDate(1, 0, 0))
		s.Orders()
	}
}
