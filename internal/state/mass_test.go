package state

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/state/statetest"

	"github.com/stretchr/testify/require"
)

// drawRow makes any row, sensible or not.
func drawRow(g *rand.Rand) string {
	tanks := []string{"mixer", "north", "south"}
	tank, from := " tank="+tanks[g.IntN(3)], " from="+tanks[g.IntN(3)]
	some := func(name, unit string, most float64) string {
		return fmt.Sprintf(" %s=%.0f%s", name, most*g.Float64(), unit)
	}
	volume := some("volume", "gal", 1200)
	switch g.IntN(8) {
	case 0:
		return fmt.Sprintf("batch%s%s nacl=%.1f%%", tank, volume, 20+5*g.Float64())
	case 1:
		return "batch" + tank + some("salt", "lb", 2500) + some("water", "gal", 1200)
	case 2:
		return "correction" + tank + some("water", "gal", 80)
	case 3, 4:
		return "transfer" + tank + from + volume
	case 5:
		return "load" + from + volume
	case 6:
		return "delivery" + tank + volume + " liquid=cal31"
	default:
		return "count" + tank + volume + " nacl=23%"
	}
}

// Over generated seasons of 5,000 events mass is conserved to 1e-9: what entries moved
// across the yard's bounds is the change of what stands in it, in every component; a
// transfer moves nothing across them.
func TestMassIsConserved(t *testing.T) {
	for seed := range uint64(20) {
		g := rand.New(rand.NewPCG(seed, 3))
		rows := make([]string, 5000)
		for i := range rows {
			rows[i] = drawRow(g)
		}
		s := New(statetest.Yard())
		var across, turnover balance.Masses
		for i, e := range statetest.Rows(rows...) {
			before := s.Masses()
			f := s.Apply(&e)
			after := s.Masses()
			across = across.Plus(f.Into())
			turnover = turnover.Plus(before)
			requireMasses(t, before.Plus(f.Into()), after, before.Total()+after.Total(), "seed %d, entry %d %s", seed, i, e.Kind)
			if e.Kind == journal.Transfer {
				crossed := f.Into().Total()
				for _, part := range f.Parts {
					if part.Class == Unexplained { // what the tank did not hold came from nowhere
						crossed -= part.Masses.Total()
					}
				}
				require.InDelta(t, 0, crossed, 1e-9*after.Total())
			}
		}
		requireMasses(t, across, s.Masses(), turnover.Total()/5000, "seed %d", seed)
		for _, tank := range s.Tanks() {
			require.GreaterOrEqual(t, tank.Mass, 0.0)
		}
	}
}

func requireMasses(t *testing.T, want, got balance.Masses, scale float64, format string, args ...any) {
	for _, p := range [][2]float64{
		{want.Water, got.Water}, {want.NaCl, got.NaCl}, {want.KCl, got.KCl}, {want.CaCl2, got.CaCl2}, {want.MgCl2, got.MgCl2}, {want.Other, got.Other},
	} {
		if !(math.Abs(p[0]-p[1]) <= 1e-9*scale+1e-9) {
			require.InDelta(t, p[0], p[1], 1e-9*scale+1e-9, fmt.Sprintf(format, args...))
		}
	}
}
