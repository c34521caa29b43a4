package state

import (
	"testing"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
	"brineyard/internal/state/statetest"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// filedYard says what stands in it.
func filedYard() *yard.Yard {
	y := statetest.Yard()
	stands, brine, pile := 2000*quantity.Gallon, balance.SaltBrine(0.231), 10000*quantity.Pound
	y.Tanks[0].MixTime = 40 * quantity.Minute
	y.Tanks[1].Contents, y.Tanks[1].Liquid, y.Pile.OnHand = &stands, &brine, &pile
	y.Trucks = []yard.Truck{{Name: "big-sprayer", Tank: 1750 * quantity.Gallon}}
	return y
}

func on(y *yard.Yard, rows ...string) *State { return Replay(y, effective(rows...)) }

func inGallons(v quantity.Volume) float64 { return float64(v / quantity.Gallon) }

// A tank opens with what the yard file says of it, until an entry says more: 2,000 gal less 300.
func TestOpensWithTheYardFile(t *testing.T) {
	y := filedYard()
	s := on(y, "load from=north volume=300gal truck=big-sprayer")
	require.Empty(t, s.Problems)
	require.InEpsilon(t, 1700, inGallons(tankOf(t, s, "north").Volume()), 1e-9)
	now := s.Over(y)
	require.Equal(t, 1, now.Tanks[1].Said.Entry)
	require.InEpsilon(t, 1700, inGallons(*now.Tanks[1].Contents), 1e-9)
	require.Zero(t, now.Tanks[0].Said.Entry)
	require.InEpsilon(t, 300, inGallons(now.Trucks[0].Aboard.Volume), 1e-9)
	require.InEpsilon(t, 2000, inGallons(*y.Tanks[1].Contents), 1e-12, "the file's yard is left alone")
}

// A reading sets the strength and keeps the volume; a count sets both.
func TestReadingAndCount(t *testing.T) {
	s := on(filedYard(), "reading tank=north nacl=22.4%")
	north := tankOf(t, s, "north")
	require.InDelta(t, 0.224, north.Liquid.Composition.NaCl, 1e-12)
	require.InEpsilon(t, 2000, inGallons(north.Volume()), 1e-9)
	require.Equal(t, 1, north.Said.Doubt.Entry)
	require.InDelta(t, 0.224, float64(north.Said.Doubt.Read), 1e-12)
	require.InDelta(t, 0.231, float64(north.Said.Doubt.Expected), 1e-12)
	s = on(filedYard(), "reading tank=north nacl=22.4%", "count tank=north volume=1850gal nacl=22.5%")
	north = tankOf(t, s, "north")
	require.InDelta(t, 0.225, north.Liquid.Composition.NaCl, 1e-12)
	require.InEpsilon(t, 1850, inGallons(north.Volume()), 1e-9)
	require.Nil(t, north.Said.Doubt, "a count settles it")
}

// A weaker reading contradicts nothing while salt dissolves; a stronger one does, and so does a
// weaker one once the tank has read in the band.
func TestDissolvingSaltIsNoDrift(t *testing.T) {
	batch := "batch tank=mixer volume=1000gal nacl=23.3% salt=2418lb water=898gal"
	for _, c := range []struct {
		rows     []string
		problems int
	}{
		{[]string{batch, "reading tank=mixer nacl=21.5%"}, 0},
		{[]string{batch, "reading tank=mixer nacl=21.5%", "reading tank=mixer nacl=22.6%"}, 0},
		{[]string{batch, "reading tank=mixer nacl=21.5%", "reading tank=mixer nacl=24.3%"}, 1},                                     // more than went in
		{[]string{batch, "count tank=mixer salt=900lb", "reading tank=mixer nacl=21.5%", "reading tank=mixer nacl=24.3%"}, 0},      // it lay on the bed
		{[]string{batch, "reading tank=mixer nacl=21.5%", "correction tank=mixer salt=240lb", "reading tank=mixer nacl=24.2%"}, 0}, // both dissolved
		{[]string{batch, "reading tank=mixer nacl=24.1%"}, 1},
		{[]string{batch, "reading tank=mixer nacl=23.3%", "reading tank=mixer nacl=22.9%"}, 1},
		{[]string{"batch tank=mixer volume=1000gal nacl=23.3%", "reading tank=mixer nacl=21.5%"}, 1}, // measured when it was done
	} {
		s := on(filedYard(), c.rows...)
		require.Len(t, s.Problems, c.problems, "%q", c.rows)
	}
	y := filedYard()
	now := on(y, batch).Over(y)
	require.InDelta(t, 0.233, float64(now.Tanks[0].Said.MayReach), 1e-4)
	require.False(t, now.Tanks[0].Said.Contradicted(0.21, 0.233))
	require.True(t, now.Tanks[0].Said.Contradicted(0.25, 0.233))
}

// A truck comes back half full: what it brings back was not laid.
func TestUnload(t *testing.T) {
	s := on(filedYard(), "load from=north volume=800gal truck=big-sprayer route=ridge-road", "unload truck=big-sprayer tank=north volume=350gal")
	require.Empty(t, s.Problems)
	require.InEpsilon(t, 2000-800+350, inGallons(tankOf(t, s, "north").Volume()), 1e-9)
	require.Zero(t, s.Trucks()[0].Mass)
	s = on(filedYard(), "load from=north volume=800gal truck=big-sprayer", "count volume=200gal truck=big-sprayer", "unload truck=big-sprayer tank=north volume=350gal")
	require.True(t, s.Problems[0].Cannot)
}

// What is due: the first reading when the mix time is over, ten minutes after one out of the band,
// none after one in it; an order on its day; the check of the hydrometer half a year after the last.
func TestAgenda(t *testing.T) {
	y := filedYard()
	y.Checked, y.CleanEvery = statetest.Noon().AddDate(0, -2, 0), 0
	batch := "batch tank=mixer volume=1000gal nacl=23.3% salt=2418lb water=898gal"
	due := func(rows ...string) []Due { return on(y, rows...).Agenda(y, statetest.Noon().Add(5*time.Hour)) }
	noon := statetest.Noon()
	require.Equal(t, []Due{{Task: ReadTank, Where: "mixer", When: noon.Add(40 * time.Minute), Overdue: true, Entry: 1}}, due(batch))
	require.Equal(t, []Due{{Task: ReadTank, Where: "mixer", When: noon.Add(70 * time.Minute), Overdue: true, Entry: 1}}, due(batch, "reading tank=mixer nacl=22%"))
	require.Equal(t, []Due(nil), due(batch, "reading tank=mixer nacl=23.2%"))
	require.Equal(t, []Due{{Task: Receive, When: time.Date(2026, 1, 14, 0, 0, 0, 0, time.UTC), Entry: 1}}, due("order salt=25ton due=2026-01-14"))
	require.Equal(t, []Due(nil), due("order salt=25ton due=2026-01-14", "delivery salt=24.5ton"))
	y.Checked = noon.AddDate(0, -7, 0)
	require.Equal(t, []Due{{Task: CheckHydrometer, When: noon.AddDate(0, -1, 0), Overdue: true}}, due())
	y.Checked = time.Time{}
	require.Equal(t, []Due{{Task: CheckHydrometer, Overdue: true}}, due())
}

// Any row, with any of its cells, leaves a state that can be asked: nothing panics, and what makes
// no sense is named and left out.
func TestSenselessEntries(t *testing.T) {
	for row, leftOut := range map[string]int{
		"load volume=10gal": 1, "load": 1, "unload volume=10gal": 1, "transfer from=north tank=north volume=5gal": 1, "spill": 1, "sale volume=5gal": 1,
		"order": 1, "rinse": 1, "clean": 1, "batch volume=5gal nacl=20%": 1, "correction": 1, "delivery volume=5gal": 1, "count": 1,
		"count tank=pile volume=5gal nacl=23%": 1,
		"note":                                 0, "work hours=3h": 0, "unheard-of tank=north": 0, "reading tank=north": 1, "reading nacl=22%": 1,
	} {
		y := filedYard()
		s := on(y, row)
		require.Equal(t, leftOut, s.LeftOut, row)
		require.Len(t, s.Problems, leftOut, row)
		require.InEpsilon(t, 2000, inGallons(*s.Over(y).Tanks[1].Contents), 1e-9, row)
	}
}

// Lines that were rinsed hold water until something runs through them.
func TestWeakLines(t *testing.T) {
	s := on(filedYard(), "rinse line=header water=30gal", "rinse line=S1")
	require.Len(t, s.WeakLines(), 2)
	s = on(filedYard(), "rinse line=header", "load from=north volume=10gal line=header")
	require.Empty(t, s.WeakLines())
}

// The problems that are listed are bounded, and the others counted.
func TestProblemsAreBounded(t *testing.T) {
	rows := make([]string, MostProblems+30)
	for i := range rows {
		rows[i] = "load"
	}
	s := on(filedYard(), rows...)
	require.Len(t, s.Problems, MostProblems)
	require.Equal(t, 30, s.Unlisted)
	require.Equal(t, len(rows), s.LeftOut)
}
