package season

import (
	"fmt"
	"iter"
	"slices"
	"strings"
	"testing"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/state/statetest"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

// inOrder are entries as a summary takes them.
func inOrder(entries []journal.Entry) iter.Seq[*journal.Entry] {
	return slices.Values(journal.ByTime(journal.Effective(entries)))
}

// sumUp sums up rows on the demo yard.
func sumUp(rows ...string) Report {
	return SumUp(Request{Yard: statetest.Yard()}, inOrder(statetest.Rows(rows...)))
}

// tankAfter is a tank as entries leave it.
func tankAfter(t *testing.T, entries []journal.Entry, name string) *state.Tank {
	t.Helper()
	tank, ok := state.Replay(statetest.Yard(), inOrder(entries)).Tank(name)
	require.True(t, ok, "no tank %s", name)
	return tank
}

// A short season by hand. Brine of 23.3 % at 60 F weighs 9.8227 lb/gal (Laliberte
// 2009; CRC Handbook tables, interpolated, give 9.82): 1,000 gal hold 2,288.7 lb of NaCl, for which
// 2,288.7 / (0.962 x 0.984) = 2,417.8 lb of the yard's salt are needed. Of those 38.7
// are water and 90.4 do not dissolve.
func TestSeasonByHand(t *testing.T) {
	lb := float64(quantity.Pound)
	entries := statetest.Rows(
		"count tank=pile salt=20000lb",
		"count tank=north volume=500gal nacl=23.3%",
		"batch tank=mixer volume=1000gal nacl=23.3% operator=Ash",
		"transfer from=mixer tank=north volume=900gal",
		"load from=north volume=400gal route=ridge-road operator=Ash",
		"delivery salt=5000lb cost=180",
		"count tank=pile salt=22500lb",
	)
	y := statetest.Yard()
	y.Routes = []yard.Route{{Name: "nobody-drove", Lanes: 4 * quantity.Mile}, {Name: "ridge-road", Lanes: 10 * quantity.Mile}}
	report := SumUp(Request{Yard: y}, inOrder(entries))
	require.Empty(t, report.Problems)
	gal := func(v quantity.Volume) float64 { return float64(v / quantity.Gallon) }
	require.InEpsilon(t, 100, gal(tankAfter(t, entries, "mixer").Volume()), 1e-9)
	require.InEpsilon(t, 1000, gal(tankAfter(t, entries, "north").Volume()), 1e-9)
	require.InEpsilon(t, 1000, gal(report.Total.Made), 1e-9)
	require.InEpsilon(t, 400, gal(report.Total.Laid), 1e-9)
	require.InEpsilon(t, 2417.8, float64(report.Total.Salt)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869, float64(report.Total.NaCl)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869*35.453/58.443, float64(report.Total.Chlorides)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869*35.453/58.443/10, float64(report.Routes[0].Rate)*float64(quantity.Mile)/lb, 1e-4)
	require.Equal(t, []Operator{{Name: "Ash", Batches: 1, InBand: 1, Loads: 1, Entries: 2}}, report.Operators)
	require.Equal(t, BandCount{In: 1}, report.Judged)
	require.Equal(t, quantity.Money(180), report.Paid)
	// 20,000 + 5,000 - 22,500 = 2,500 lb are gone; the brine explains 2,417.8 of them.
	b := report.Salt
	require.True(t, b.Counted)
	require.InEpsilon(t, 2500, float64(b.Gone)/lb, 1e-9)
	require.InEpsilon(t, 2288.7, float64(b.InBrine)/lb, 1e-4)
	require.InEpsilon(t, 40, float64(b.Moisture)/lb, 1e-9)
	require.InEpsilon(t, 2500*0.984*0.038, float64(b.Insolubles)/lb, 1e-9)
	require.InEpsilon(t, 2500-40-93.48-2288.7, float64(b.Unexplained)/lb, 2e-3)
	require.False(t, b.Notable())
}

// A heel counts once: a batch on it makes only what is new.
func TestBatchOnHeel(t *testing.T) {
	entries := statetest.Rows(
		"batch tank=mixer volume=1000gal nacl=23.3%",
		"transfer from=mixer tank=north volume=900gal",
		"batch tank=mixer volume=1000gal nacl=23.3%",
	)
	report := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
	require.InEpsilon(t, 1900, float64(report.Total.Made/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 1900, float64(tankAfter(t, entries, "mixer").Made/quantity.Gallon), 1e-9)
}

// More than a tank held was recorded as loaded: all of it counts as laid, and what the tank did
// not hold is a figure of its own.
func TestLoadOfMoreThanThereIs(t *testing.T) {
	entries := statetest.Rows(
		"count tank=north volume=500gal nacl=23.3%",
		"load from=north volume=800gal route=ridge-road",
	)
	report := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
	require.InEpsilon(t, 800, float64(report.Routes[0].Volume/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 800, float64(report.Total.Laid/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 800*2.28869*35.453/58.443, float64(report.Total.Chlorides/quantity.Pound), 1e-4)
	require.InEpsilon(t, 300, float64(report.Flows[state.Unexplained].Volume/quantity.Gallon), 1e-9)
	require.Zero(t, tankAfter(t, entries, "north").Mass)
	require.Len(t, report.Problems, 1)
}

// What is taken of a bought liquid is counted and priced, whether loaded, moved into another tank or
// added to one; what moves between tanks of its own is not.
func TestBoughtLiquidUsed(t *testing.T) {
	entries := statetest.Rows(
		"count tank=north volume=1000gal nacl=23.3%",
		"delivery tank=south volume=900gal liquid=cal31",
		"load from=south volume=100gal",
		"transfer from=south tank=north volume=30gal",
		"transfer from=south tank=spare volume=200gal",
		"correction tank=north volume=7gal liquid=cal31",
	)
	y, price := statetest.Yard(), quantity.PricePerVolume(1.24/float64(quantity.Gallon))
	y.Liquids[0].Price = &price
	report := SumUp(Request{Yard: y}, inOrder(entries))
	require.Empty(t, report.Problems)
	used, cost := quantity.Volume(0), 0.0
	for _, l := range report.Months {
		used += l.Used
		if l.Used > 0 {
			cost += float64(*l.Cost)
		}
	}
	require.InEpsilon(t, 137, float64(used/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 137*1.24, cost, 1e-9)
	y.Liquids[0].Price = nil
	report = SumUp(Request{Yard: y}, inOrder(entries))
	for _, l := range report.Months {
		require.Equal(t, l.Used > 0, l.Cost == nil, l.Liquid) // not known, which is not nothing
	}
}

// Brine has a cost where salt and water both have a price: 2,417.8 lb at 0.10 and 898.26 gal
// at 0.02.
func TestCostOfBrine(t *testing.T) {
	salt, water := quantity.PricePerMass(0.1/float64(quantity.Pound)), quantity.PricePerVolume(0.02/float64(quantity.Gallon))
	entries := statetest.Rows("batch tank=mixer volume=1000gal nacl=23.3%")
	for _, prices := range []yard.Prices{{}, {Salt: &salt}, {Water: &water}} {
		y := statetest.Yard()
		y.Prices = prices
		report := SumUp(Request{Yard: y}, inOrder(entries))
		require.Nil(t, report.AtYardPrices)
		require.Nil(t, report.Months[0].Cost)
	}
	y := statetest.Yard()
	y.Prices = yard.Prices{Salt: &salt, Water: &water}
	report := SumUp(Request{Yard: y}, inOrder(entries))
	require.InEpsilon(t, 241.78+17.965, float64(*report.AtYardPrices), 1e-4)
	require.Equal(t, report.AtYardPrices, report.Months[0].Cost)
}

// A period leaves out what lies before and after, and begins with what was there.
func TestPeriod(t *testing.T) {
	entries := statetest.Rows(
		"batch tank=mixer volume=1000gal nacl=23.3%",
		"load from=mixer volume=300gal",
		"load from=mixer volume=200gal",
	)
	second := journal.Period{From: statetest.Noon().Add(time.Hour), To: statetest.Noon().Add(2 * time.Hour)}
	report := SumUp(Request{Yard: statetest.Yard(), Period: second}, inOrder(entries))
	require.Equal(t, 1, report.Entries)
	require.InEpsilon(t, 300, float64(report.Total.Laid/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 7*982.27, report.Closing.Total()/float64(quantity.Pound), 1e-5) // 700 gal
	require.InEpsilon(t, 0.3, (report.Opening.Total()-report.Closing.Total())/report.Opening.Total(), 1e-9)
}

func requireMasses(t *testing.T, want, got balance.Masses, scale float64) {
	t.Helper()
	for _, p := range [][2]float64{
		{want.Water, got.Water}, {want.NaCl, got.NaCl}, {want.KCl, got.KCl}, {want.CaCl2, got.CaCl2}, {want.MgCl2, got.MgCl2}, {want.Other, got.Other},
	} {
		require.InDelta(t, p[0], p[1], 1e-9*scale+1e-9)
	}
}

// The demo season holds together: its own gallons and the replay agree.
func TestDemoSeason(t *testing.T) {
	entries := newDemoSeason(11, 18)
	report := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
	require.Empty(t, report.Problems)
	require.Greater(t, report.Judged.In, 10)
	require.Equal(t, report.Judged.In+report.Judged.Edge+report.Judged.Weak+report.Judged.Strong, len(report.Batches))
	requireMasses(t, report.Opening.Plus(report.Across), report.Closing, report.Closing.Total())
	require.InDelta(t, 0.31, tankAfter(t, entries, "south").Liquid.Composition.CaCl2, 1e-12)
	require.False(t, report.Salt.Notable(), "%+v", report.Salt)
	require.Len(t, report.Cleanings, 1)
	require.Equal(t, 3, report.Cleanings[0].Learned)
}

// An entry that was recorded late counts where it belongs: a count of 3,000 gal on Monday
// stands, though a load of Sunday was written down on Tuesday.
func TestBackdatedEntry(t *testing.T) {
	entries := statetest.Rows(
		"count tank=north volume=4000gal nacl=23.3%",
		"count tank=north volume=3000gal nacl=23.3%",
		"load from=north volume=500gal",
	)
	entries[0].Time, entries[1].Time, entries[2].Time = statetest.Noon().Add(-30*time.Hour), statetest.Noon(), statetest.Noon().Add(-19*time.Hour)
	report := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
	require.Len(t, report.Problems, 1) // the count is 500 gal below what 4,000 - 500 leave
	require.Equal(t, 2, report.Problems[0].Entry)
	require.InEpsilon(t, 3000, float64(tankAfter(t, entries, "north").Volume()/quantity.Gallon), 1e-9)
	// A period that begins between them balances.
	between := journal.Period{From: statetest.Noon().Add(-20 * time.Hour)}
	report = SumUp(Request{Yard: statetest.Yard(), Period: between}, inOrder(entries))
	requireMasses(t, report.Opening.Plus(report.Across), report.Closing, report.Closing.Total())
	require.Equal(t, entries[2].Time, report.First)
}

// Batches without the transfers between them: what stood in the tank is taken as gone,
// and said so, and each batch counts in full.
func TestBatchesAlone(t *testing.T) {
	batch := "batch tank=mixer volume=1095gal nacl=23.3%"
	report := sumUp(batch, batch, batch, batch)
	require.Len(t, report.Problems, 3)
	require.InEpsilon(t, 4*1095, float64(report.Total.Made/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 4*1.095*2417.8, float64(report.Total.Salt/quantity.Pound), 1e-4)
	require.InEpsilon(t, 4*1.095*2288.7, float64(report.Salt.InBrine/quantity.Pound), 1e-4)
}

// The first reading after a batch says how strong it came out: 23.3 % on the glass at 40 F
// is 22.65 %, too weak, whatever was recorded as planned.
func TestBatchIsReadAfterwards(t *testing.T) {
	reading := "reading tank=mixer scale=hydrometer reading=23.3 temp=40F"
	batch := "batch tank=mixer volume=1000gal nacl=23.3%"
	report := sumUp(batch, reading)
	require.Equal(t, BandCount{Weak: 1}, report.Judged)
	require.True(t, report.Batches[0].Read)
}

// A blended truckload is two rows and one load.
func TestBlendedLoad(t *testing.T) {
	const rest = " volume=100gal truck=big-sprayer route=mill-loop liquid=cold-mix operator=Ash"
	report := sumUp("load from=north"+rest, "load from=south"+rest, "load from=north"+rest)
	require.Equal(t, 2, report.Routes[0].Loads)
	require.Equal(t, 2, report.Operators[0].Loads)
}

// A batch is judged as check judges the tank before it is pumped: what is off an end of the
// band by no more than would need correcting is in it.
func TestBandIsThatOfCheck(t *testing.T) {
	for percent, want := range map[float64]BandCount{
		22.9994: {Weak: 1}, 22.9996: {In: 1}, 23.3: {In: 1}, 24.0004: {In: 1}, 24.0006: {Strong: 1},
	} {
		report := sumUp(fmt.Sprintf("batch tank=mixer volume=1000gal nacl=%v%%", percent))
		require.Equal(t, want, report.Judged, "%v %%", percent)
		require.Equal(t, want.In == 1, report.Band.Judge(quantity.Strength(percent/100)) == yard.MayPump)
	}
}

// A period in which nothing happened opens and closes with what there was.
func TestEmptyPeriod(t *testing.T) {
	entries := statetest.Rows("count tank=pile salt=20000lb", "count tank=north volume=100gal nacl=23.3%")
	later := journal.Period{From: statetest.Noon().Add(24 * time.Hour)}
	report := SumUp(Request{Yard: statetest.Yard(), Period: later}, inOrder(entries))
	require.Zero(t, report.Entries)
	require.InEpsilon(t, 982.27, report.Opening.Total()/float64(quantity.Pound), 1e-5)
	require.Equal(t, report.Opening, report.Closing)
	require.Equal(t, report.Salt.Opening, report.Salt.Closing)
	require.Zero(t, report.Salt.Gone)
}

// Without a yard file the salt is pure, the band is the usual one, and nothing has a price.
func TestSeasonWithoutYard(t *testing.T) {
	rows := statetest.Rows("batch tank=mixer volume=1000gal nacl=23.3%", "load from=mixer volume=100gal route=ridge-road")
	report := SumUp(Request{}, inOrder(rows))
	require.InEpsilon(t, 2288.7, float64(report.Total.Salt/quantity.Pound), 1e-4)
	require.Equal(t, yard.Band{Target: 0.233, Low: 0.23, High: 0.24}, report.Band)
	require.Equal(t, BandCount{In: 1}, report.Judged)
	require.Nil(t, report.AtYardPrices)
	require.Zero(t, report.Cleanings[0].Interval)
	require.Zero(t, report.Routes[0].Rate)
}

// Two rows are one truckload if truck, route and blend are the same, the tanks are not, and
// an hour at most lies between.
func TestTruckloadIsOne(t *testing.T) {
	const truck, route, blend = " truck=big-sprayer", " route=mill-loop", " liquid=cold-mix"
	const first = "load from=north volume=100gal operator=Ash" + truck + route + blend
	for second, loads := range map[string]int{
		"from=south" + truck + route + blend:               1,
		"from=south" + truck + " route=ridge-road" + blend: 2,
		"from=south truck=lot-pickup" + route + blend:      2,
		"from=south" + truck + route + " liquid=warm-mix":  2,
		"from=south" + truck + route:                       2,
		"from=south" + route + blend:                       2,
		"from=north" + truck + route + blend:               2,
		"from=south" + truck + route + blend + " late":     2,
	} {
		row, late := strings.CutSuffix(second, " late")
		entries := statetest.Rows(first, "load volume=100gal operator=Ash "+row)
		if late {
			entries[1].Time = entries[0].Time.Add(61 * time.Minute)
		}
		report := SumUp(Request{Yard: statetest.Yard()}, inOrder(entries))
		require.Equal(t, loads, report.Operators[0].Loads, second)
	}
}
