package state

import (
	"iter"
	"slices"
	"testing"

	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state/statetest"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// tankOf finds a tank that is there.
func tankOf(t *testing.T, s *State, name string) *Tank {
	t.Helper()
	tank, ok := s.Tank(name)
	require.True(t, ok, "no tank %s", name)
	return tank
}

// effective are the entries of rows in the order of their times.
func effective(rows ...string) iter.Seq[*journal.Entry] {
	return slices.Values(journal.ByTime(journal.Effective(statetest.Rows(rows...))))
}

// replay applies rows to the demo yard.
func replay(rows ...string) *State {
	return Replay(statetest.Yard(), effective(rows...))
}

// Salt and water alone make what the balance of weights says: 2,000 lb of pure salt in
// 800 gal of water at 46 F, 8.3443 lb/gal, are 2000 / 8675.4 = 23.05 %.
func TestBatchOfWhatWasPutIn(t *testing.T) {
	y := statetest.Yard()
	y.Pile.Quality = yard.PureSalt()
	s := Replay(y, effective("batch tank=mixer salt=2000lb water=800gal"))
	require.InEpsilon(t, 2000/(2000+800*8.3443), tankOf(t, s, "mixer").Liquid.Composition.NaCl, 1e-5)
}

// What entries cannot mean is named, by entry, and the rest goes on.
func TestProblems(t *testing.T) {
	for text, row := range map[string]string{
		"nothing says what was in north":     "load from=north volume=10gal",
		"mixer held 1,000 gal":               "load from=mixer volume=1100gal",
		"a load without a volume":            "load from=mixer",
		"a transfer without volume or tanks": "transfer from=mixer",
		"without volume or tanks: left out":  "transfer tank=mixer volume=10gal",
		"a batch without volume":             "batch tank=mixer",
		"mixer would hold 1,4":               "correction tank=mixer water=430gal",
		"neither the row nor the yard file":  "delivery tank=south volume=100gal liquid=what",
		"does not say what is in it":         "count tank=south volume=100gal",
		"mixer was counted at 900 gal":       "count tank=mixer volume=900gal",
		"a count without a volume":           "count tank=south",
		"in south, which has no bed":         "count tank=south salt=500lb",
		"mixer reads 22% true":               "reading tank=mixer nacl=22%",
		"a reading that no salt brine gives": "reading tank=mixer scale=sg temp=40F",
		"no salt brine gives: left out":      "reading tank=mixer scale=ladle reading=23.3 temp=40F",
		"reading that no salt brine gives":   "reading tank=mixer scale=sg reading=1.17",
	} {
		s := replay("batch tank=mixer volume=1000gal nacl=23.3%", row)
		require.Len(t, s.Problems, 1, text)
		require.Contains(t, fault.Sentence(s.Problems[0].Text, s.Problems[0].Args, quantity.US), text)
		require.Equal(t, 2, s.Problems[0].Entry)
	}
}

// A reading is compared with the entries by its true strength: 23.3 % on the glass at 40
// F is 22.65 % (the correction of check's own example).
func TestReadingDrift(t *testing.T) {
	s := replay(
		"batch tank=mixer volume=1000gal nacl=22.6%",
		"reading tank=mixer scale=hydrometer reading=23.3 temp=40F",
	)
	require.Empty(t, s.Problems)
	require.InDelta(t, 0.2265, float64(tankOf(t, s, "mixer").Reading.True), 5e-5)
}

// A pile that nobody counted is not an empty one.
func TestPileIsKnownByCount(t *testing.T) {
	batch := "batch tank=mixer volume=1000gal nacl=23.3%"
	s := replay(batch)
	require.False(t, s.PileKnown)
	for row, known := range map[string]bool{"count salt=20000lb": true, "delivery salt=20000lb": false} {
		s = replay(row, batch)
		require.Equal(t, known, s.PileKnown) // what came is there at least
		require.InEpsilon(t, 20000-2417.8, float64(s.Pile/quantity.Pound), 1e-4)
	}
}

// A load takes out of a tank what its volume weighs: 100 gal of 23.3 % brine at 60 F are
// 982.27 lb, 228.87 lb of them salt.
func TestLoadWeighs(t *testing.T) {
	s := New(statetest.Yard())
	for _, e := range statetest.Rows(
		"count tank=north volume=500gal nacl=23.3%",
		"load from=north volume=100gal",
	) {
		f := s.Apply(&e)
		if e.Kind == journal.Load {
			require.InEpsilon(t, -982.27*float64(quantity.Pound), f.Into().Total(), 1e-5)
			require.InEpsilon(t, -228.87*float64(quantity.Pound), f.Into().NaCl, 1e-4)
		}
	}
}

// The moisture of the salt is water that was not run in: 1,000 gal of 23.3 % brine, 9,822.7
// lb, hold 7,534.0 lb of water, of which 1.6 % of 2,417.8 lb came with the salt, and 7,495.3
// lb are 898.26 gal at 46 F, 8.3443 lb/gal. Salt that was recorded brings its own.
func TestWaterOfABatch(t *testing.T) {
	s := New(statetest.Yard())
	for row, want := range map[string]float64{"": 898.26, " salt=5000lb": (7534.0 - 80) / 8.3443, " water=870gal": 870} {
		e := statetest.Rows("batch tank=mixer volume=1000gal nacl=23.3%" + row)[0]
		s.Apply(&statetest.Rows("clean tank=mixer")[0])
		require.InEpsilon(t, want, float64(s.Apply(&e).Water/quantity.Gallon), 2e-5, row)
	}
}

// Rock salt brings its moisture along: of 100 lb, 1.6 lb are water, and 96.2 % of the rest is
// salt; what is left does not dissolve.
func TestSaltBringsItsMoisture(t *testing.T) {
	for _, row := range []string{"correction tank=mixer salt=100lb", "batch tank=mixer salt=100lb"} {
		s := New(statetest.Yard())
		s.Apply(&statetest.Rows("count tank=mixer volume=1000gal nacl=20%")[0])
		f := s.Apply(&statetest.Rows(row)[0])
		require.InEpsilon(t, 1.6, f.Into().Water/float64(quantity.Pound), 1e-9, row)
		require.InEpsilon(t, 98.4*0.962, f.Into().NaCl/float64(quantity.Pound), 1e-9, row)
		require.InEpsilon(t, 98.4*0.038, float64(tankOf(t, s, "mixer").Insolubles/quantity.Pound), 1e-9, row)
	}
}

// A count may be off by 5 % of the larger of what was found and what the entries leave.
func TestCountAllowance(t *testing.T) {
	for found, problems := range map[string]int{"949": 1, "951": 0, "1000": 0, "1052": 0, "1054": 1} {
		s := replay("count tank=north volume=1000gal nacl=23.3%", "count tank=north volume="+found+"gal")
		require.Len(t, s.Problems, problems, found)
	}
}

// Tanks come by their names, whoever came first. Rounding leaves nothing in an empty one.
func TestTanks(t *testing.T) {
	s := replay("count tank=south volume=0.4gal nacl=23.3%", "load from=south volume=0.1gal", "load from=south volume=0.1gal", "load from=south volume=0.1gal",
		"load from=south volume=0.1gal", "note tank=spare", "count tank=mixer volume=0gal", "count tank=north volume=10gal nacl=20%")
	require.Empty(t, s.Problems)
	require.Equal(t, 8, s.Entries)
	var names []string
	for _, tank := range s.Tanks() {
		names = append(names, tank.Name)
	}
	require.Equal(t, []string{"mixer", "north", "south"}, names)
	require.Zero(t, tankOf(t, s, "south").Mass)
	_, ok := s.Tank("spare")
	require.False(t, ok)
}

// Without a yard file what salt brine is must be said; salt and water are pure and of 60 F.
func TestNoYardFile(t *testing.T) {
	s := Replay(nil, effective("delivery tank=north volume=10gal liquid=brine", "batch tank=mixer salt=2000lb water=800gal"))
	require.Len(t, s.Problems, 1)
	require.InEpsilon(t, 2000/(2000+800*8.3372), tankOf(t, s, "mixer").Liquid.Composition.NaCl, 1e-5)
	require.Zero(t, tankOf(t, s, "mixer").Insolubles)
}
