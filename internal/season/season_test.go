package season

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
)

var noon = time.Date(2026, 1, 10, 12, 0, 0, 0, time.UTC)

func entry(kind journal.Kind, change func(*journal.Entry)) journal.Entry {
	e := journal.Entry{Kind: kind, Time: noon}
	change(&e)
	return e
}

func number(entries ...journal.Entry) []journal.Entry {
	for i := range entries {
		entries[i].Number = i + 1
		entries[i].Time = noon.Add(time.Duration(i) * time.Hour)
	}
	return entries
}

// tankOf finds a tank of a replay.
func tankOf(t *testing.T, r *Replay, name string) *Tank {
	t.Helper()
	for _, tank := range r.Tanks() {
		if tank.Name == name {
			return tank
		}
	}
	require.Fail(t, "no tank", name)
	return nil
}

// A short season by hand. Brine of 23.3 % at 60 F weighs 9.8227 lb/gal (Laliberte
// 2009; CRC Handbook tables, interpolated, give 9.82): 1,000 gal hold 2,288.7 lb of NaCl, for which
// 2,288.7 / (0.962 x 0.984) = 2,417.8 lb of the yard's salt are needed. Of those 38.7
// are water and 90.4 do not dissolve.
func TestSeasonByHand(t *testing.T) {
	lb := float64(quantity.Pound)
	entries := number(
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Salt = journal.Pile, pounds(20000) }),
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(500), percent(23.3) }),
		entry(journal.Batch, func(e *journal.Entry) {
			e.Tank, e.Volume, e.NaCl, e.Operator = "mixer", gallons(1000), percent(23.3), "Ash"
		}),
		entry(journal.Transfer, func(e *journal.Entry) { e.From, e.Tank, e.Volume = "mixer", "north", gallons(900) }),
		entry(journal.Load, func(e *journal.Entry) {
			e.From, e.Volume, e.Route, e.Operator = "north", gallons(400), "ridge-road", "Ash"
		}),
		entry(journal.Delivery, func(e *journal.Entry) { e.Salt, e.Cost = pounds(5000), money(180) }),
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Salt = journal.Pile, pounds(22500) }),
	)
	shop := demoShop()
	shop.Lanes = map[string]quantity.Length{"ridge-road": 10 * quantity.Mile}
	report, replay := Season(Request{Shop: shop}, journal.Effective(entries))
	require.Empty(t, report.Problems)
	gal := func(v quantity.Volume) float64 { return float64(v / quantity.Gallon) }
	require.InEpsilon(t, 100, gal(tankOf(t, replay, "mixer").Volume(shop.Temperature)), 1e-9)
	require.InEpsilon(t, 1000, gal(tankOf(t, replay, "north").Volume(shop.Temperature)), 1e-9)
	require.InEpsilon(t, 1000, gal(report.Total.Made), 1e-9)
	require.InEpsilon(t, 400, gal(report.Total.Laid), 1e-9)
	require.InEpsilon(t, 2417.8, float64(report.Total.Salt)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869, float64(report.Total.NaCl)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869*35.453/58.443, float64(report.Total.Chlorides)/lb, 1e-4)
	require.InEpsilon(t, 400*2.28869*35.453/58.443/10, float64(report.Routes[0].Rate)*float64(quantity.Mile)/lb, 1e-4)
	require.Equal(t, []Operator{{"Ash", 1, 1, 1, 2}}, report.Operators)
	require.Equal(t, BandCount{In: 1}, report.Band)
	require.Equal(t, quantity.Money(180), report.Paid)
	// 20,000 + 5,000 - 22,500 = 2,500 lb are gone; the brine explains 2,417.8 of them.
	b := report.Salt
	require.True(t, b.Counted)
	require.InEpsilon(t, 2500, float64(b.Gone)/lb, 1e-9)
	require.InEpsilon(t, 2288.7, float64(b.InBrine)/lb, 1e-4)
	require.InEpsilon(t, 40, float64(b.Moisture)/lb, 1e-9)
	require.InEpsilon(t, 2500*0.984*0.038, float64(b.Insolubles)/lb, 1e-9)
	require.InEpsilon(t, 2500-40-93.48-2288.7, float64(b.Unexplained)/lb, 2e-3)
	require.False(t, b.Called())
}

// A heel counts once: a batch on it makes only what is new.
func TestBatchOnHeel(t *testing.T) {
	entries := number(
		entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) }),
		entry(journal.Transfer, func(e *journal.Entry) { e.From, e.Tank, e.Volume = "mixer", "north", gallons(900) }),
		entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) }),
	)
	report, replay := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.InEpsilon(t, 1900, float64(report.Total.Made/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 1900, float64(tankOf(t, replay, "mixer").Made/quantity.Gallon), 1e-9)
}

// Salt and water alone make what the balance of weights says: 2,000 lb of pure salt in
// 800 gal of water at 46 F, 8.3443 lb/gal, are 2000 / 8675.4 = 23.05 %.
func TestBatchOfWhatWasPutIn(t *testing.T) {
	shop := demoShop()
	shop.RockSalt = yard.PureSalt()
	entries := number(entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Salt, e.Water = "mixer", pounds(2000), gallons(800) }))
	_, replay := Season(Request{Shop: shop}, journal.Effective(entries))
	require.InEpsilon(t, 2000/(2000+800*8.3443), tankOf(t, replay, "mixer").Liquid.Composition.NaCl, 1e-5)
}

// What entries cannot mean is named, by entry, and the rest goes on.
func TestProblems(t *testing.T) {
	for text, e := range map[string]journal.Entry{
		"nothing says what was in north":     entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "north", gallons(10) }),
		"mixer held 1,000 gal":               entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "mixer", gallons(1100) }),
		"a load without a volume":            entry(journal.Load, func(e *journal.Entry) { e.From = "mixer" }),
		"a transfer without volume or tanks": entry(journal.Transfer, func(e *journal.Entry) { e.From = "mixer" }),
		"a batch without volume":             entry(journal.Batch, func(e *journal.Entry) { e.Tank = "mixer" }),
		"mixer would hold 1,4":               entry(journal.Correction, func(e *journal.Entry) { e.Tank, e.Water = "mixer", gallons(430) }),
		"neither the row nor the yard file":  entry(journal.Delivery, func(e *journal.Entry) { e.Tank, e.Volume, e.Liquid = "south", gallons(100), "what" }),
		"does not say what is in it":         entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume = "south", gallons(100) }),
		"mixer was counted at 900 gal":       entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume = "mixer", gallons(900) }),
		"a count without a volume":           entry(journal.Count, func(e *journal.Entry) { e.Tank = "south" }),
		"mixer reads 22% true":               entry(journal.Reading, func(e *journal.Entry) { e.Tank, e.NaCl = "mixer", percent(22) }),
		"a reading that no salt brine gives": entry(journal.Reading, func(e *journal.Entry) { e.Tank, e.Scale = "mixer", "sg" }),
	} {
		entries := number(entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) }), e)
		report, _ := Season(Request{Shop: demoShop()}, journal.Effective(entries))
		require.Len(t, report.Problems, 1, text)
		require.Contains(t, report.Problems[0].String(), text)
		require.Equal(t, 2, report.Problems[0].Entry)
	}
}

// A reading is compared with the entries by its true strength: 23.3 % on the glass at 40
// F is 22.65 % (the correction of check's own example).
func TestReadingDrift(t *testing.T) {
	shown, cold := 23.3, quantity.Fahrenheit(40)
	entries := number(
		entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(22.6) }),
		entry(journal.Reading, func(e *journal.Entry) { e.Tank, e.Scale, e.Reading, e.Temp = "mixer", "hydrometer", &shown, &cold }),
	)
	report, replay := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.Empty(t, report.Problems)
	require.InDelta(t, 0.2265, float64(tankOf(t, replay, "mixer").Reading.True), 5e-5)
}

// More than a tank held cannot leave it, and a route got no more than that.
func TestLoadOfMoreThanThereIs(t *testing.T) {
	entries := number(
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(500), percent(23.3) }),
		entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume, e.Route = "north", gallons(800), "ridge-road" }),
	)
	report, replay := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.InEpsilon(t, 500, float64(report.Routes[0].Volume/quantity.Gallon), 1e-9)
	require.Zero(t, tankOf(t, replay, "north").Mass)
	require.Len(t, report.Problems, 1)
}

// A pile that nobody counted is not an empty one.
func TestPileIsKnownByCount(t *testing.T) {
	batch := entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) })
	_, replay := Season(Request{Shop: demoShop()}, journal.Effective(number(batch)))
	require.False(t, replay.PileKnown)
	for _, e := range []journal.Entry{
		entry(journal.Count, func(e *journal.Entry) { e.Salt = pounds(20000) }),
		entry(journal.Delivery, func(e *journal.Entry) { e.Salt = pounds(20000) }),
	} {
		_, replay = Season(Request{Shop: demoShop()}, journal.Effective(number(e, batch)))
		require.True(t, replay.PileKnown)
		require.InEpsilon(t, 20000-2417.8, float64(replay.Pile/quantity.Pound), 1e-4)
	}
}

// What is taken of a bought liquid is counted and priced, whether loaded, moved into another tank or
// added to one; what moves between tanks of its own is not.
func TestBoughtLiquidUsed(t *testing.T) {
	entries := number(
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(1000), percent(23.3) }),
		entry(journal.Delivery, func(e *journal.Entry) { e.Tank, e.Volume, e.Liquid = "south", gallons(900), "cal31" }),
		entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "south", gallons(100) }),
		entry(journal.Transfer, func(e *journal.Entry) { e.From, e.Tank, e.Volume = "south", "north", gallons(30) }),
		entry(journal.Transfer, func(e *journal.Entry) { e.From, e.Tank, e.Volume = "south", "spare", gallons(200) }),
		entry(journal.Correction, func(e *journal.Entry) { e.Tank, e.Volume, e.Liquid = "north", gallons(7), "cal31" }),
	)
	shop := demoShop()
	shop.LiquidPrices = map[string]quantity.PricePerVolume{"cal31": quantity.PricePerVolume(1.24 / float64(quantity.Gallon))}
	report, _ := Season(Request{Shop: shop}, journal.Effective(entries))
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
	shop.LiquidPrices = nil
	report, _ = Season(Request{Shop: shop}, journal.Effective(entries))
	for _, l := range report.Months {
		require.Equal(t, l.Used > 0, l.Cost == nil, l.Liquid) // not known, which is not nothing
	}
}

// The interval is what was made between past cleanings; the yard's rule stands until
// there are two, and where it has none, one is better than nothing.
func TestCleaningInterval(t *testing.T) {
	batch := entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) })
	empty := entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "mixer", gallons(1000) })
	clean := entry(journal.Clean, func(e *journal.Entry) { e.Tank = "mixer" })
	report, _ := Season(Request{Shop: demoShop()}, journal.Effective(number(batch, empty, batch, empty)))
	require.Equal(t, 42000*quantity.Gallon, report.Cleanings[0].Interval)
	require.Zero(t, report.Cleanings[0].Learned)
	once := journal.Effective(number(batch, empty, clean, batch))
	report, _ = Season(Request{Shop: demoShop()}, once)
	require.Zero(t, report.Cleanings[0].Learned)
	require.Equal(t, 42000*quantity.Gallon, report.Cleanings[0].Interval)
	noRule := demoShop()
	noRule.CleanEvery = 0
	report, _ = Season(Request{Shop: noRule}, once)
	require.Equal(t, 1, report.Cleanings[0].Learned)
	require.InEpsilon(t, 1000, float64(report.Cleanings[0].Interval/quantity.Gallon), 1e-9)
	report, _ = Season(Request{Shop: demoShop()}, journal.Effective(number(clean, batch, empty, batch, empty, clean, batch, empty, batch, empty, batch, empty, batch, empty, clean, batch)))
	due := report.Cleanings[0]
	require.Equal(t, 2, due.Learned) // the first, before any batch, tells nothing
	require.InEpsilon(t, 3000, float64(due.Interval/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 1000, float64(due.Since/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 2000, float64(due.Left/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 3*2417.8*0.984*0.038, float64(due.Sludge/quantity.Pound), 1e-4)
	// 7,000 gal in the 14 hours since the first batch, so 14 x 2/7 hours for the 2,000 that
	// are left.
	require.WithinDuration(t, report.Last.Add(14*time.Hour*2/7), due.Date, time.Second)
}

// A period leaves out what lies before and after, and begins with what was there.
func TestPeriod(t *testing.T) {
	entries := number(
		entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) }),
		entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "mixer", gallons(300) }),
		entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "mixer", gallons(200) }),
	)
	report, replay := Season(Request{Shop: demoShop(), From: noon.Add(time.Hour), To: noon.Add(2 * time.Hour)}, journal.Effective(entries))
	require.Equal(t, 1, report.Entries)
	require.InEpsilon(t, 300, float64(report.Total.Laid/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 700, float64(tankOf(t, replay, "mixer").Volume(quantity.Fahrenheit(60))/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 0.3, (report.Opening.Total()-report.Closing.Total())/report.Opening.Total(), 1e-9)
}

// drawEvent makes any event, sensible or not.
func drawEvent(g *rand.Rand) journal.Entry {
	tanks := []string{"mixer", "north", "south"}
	some := func() *quantity.Volume { return gallons(1200 * g.Float64()) }
	e := journal.Entry{Tank: tanks[g.IntN(3)], From: tanks[g.IntN(3)]}
	switch g.IntN(8) {
	case 0:
		e.Kind, e.Volume, e.NaCl = journal.Batch, some(), percent(20+5*g.Float64())
	case 1:
		e.Kind, e.Salt, e.Water = journal.Batch, pounds(2500*g.Float64()), some()
	case 2:
		e.Kind, e.Water = journal.Correction, gallons(80*g.Float64())
	case 3, 4:
		e.Kind, e.Volume = journal.Transfer, some()
	case 5:
		e.Kind, e.Volume = journal.Load, some()
	case 6:
		e.Kind, e.Volume, e.Liquid = journal.Delivery, some(), "cal31"
	default:
		e.Kind, e.Volume, e.NaCl = journal.Count, some(), percent(23)
	}
	return e
}

// Over generated seasons of 5,000 events mass is conserved to 1e-9: what entries moved
// across the yard's bounds is the change of what stands in it, in every component; a
// transfer moves nothing across them.
func TestMassIsConserved(t *testing.T) {
	for seed := range uint64(20) {
		g := rand.New(rand.NewPCG(seed, 3))
		r := NewReplay(demoShop())
		stand := func() (m Masses) {
			for _, t := range r.Tanks() {
				m = m.Plus(t.Masses())
			}
			return m
		}
		var across, turnover Masses
		for i := range 5000 {
			e := drawEvent(g)
			e.Number = i + 1
			before := stand()
			f := r.Apply(&e)
			after := stand()
			across = across.Plus(f.Into)
			turnover = turnover.Plus(before)
			requireMasses(t, before.Plus(f.Into), after, before.Total()+after.Total(), "seed %d, entry %d %s", seed, i, e.Kind)
			if e.Kind == journal.Transfer {
				require.Zero(t, f.Into)
			}
		}
		requireMasses(t, across, stand(), turnover.Total()/5000, "seed %d", seed)
		for _, tank := range r.Tanks() {
			require.GreaterOrEqual(t, tank.Mass, 0.0)
		}
	}
}

func requireMasses(t *testing.T, want, got Masses, scale float64, format string, args ...any) {
	t.Helper()
	for _, p := range [][2]float64{
		{want.Water, got.Water}, {want.NaCl, got.NaCl}, {want.KCl, got.KCl}, {want.CaCl2, got.CaCl2}, {want.MgCl2, got.MgCl2}, {want.Other, got.Other},
	} {
		require.InDelta(t, p[0], p[1], 1e-9*scale+1e-9, fmt.Sprintf(format, args...))
	}
}

// A load takes out of a tank what its volume weighs: 100 gal of 23.3 % brine at 60 F are
// 982.27 lb, 228.87 lb of them salt.
func TestLoadWeighs(t *testing.T) {
	r := NewReplay(demoShop())
	for _, e := range number(
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(500), percent(23.3) }),
		entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "north", gallons(100) }),
	) {
		f := r.Apply(&e)
		if e.Kind == journal.Load {
			require.InEpsilon(t, -982.27*float64(quantity.Pound), f.Into.Total(), 1e-5)
			require.InEpsilon(t, -228.87*float64(quantity.Pound), f.Into.NaCl, 1e-4)
		}
	}
}

// The demo season holds together: its own gallons and the replay agree.
func TestDemoSeason(t *testing.T) {
	entries := newDemoSeason(11, 18)
	report, replay := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.Empty(t, report.Problems)
	require.Greater(t, report.Band.In, 10)
	require.Equal(t, report.Band.In+report.Band.Weak+report.Band.Strong, len(report.Batches))
	requireMasses(t, report.Opening.Plus(report.Across), report.Closing, report.Closing.Total(), "balance")
	require.InDelta(t, 0.31, tankOf(t, replay, "south").Liquid.Composition.CaCl2, 1e-12)
	require.False(t, report.Salt.Called(), "%+v", report.Salt)
	require.Len(t, report.Cleanings, 1)
	require.Equal(t, 3, report.Cleanings[0].Learned)
}

// An entry that was recorded late counts where it belongs: a count of 3,000 gal on Monday
// stands, though a load of Sunday was written down on Tuesday.
func TestBackdatedEntry(t *testing.T) {
	count := entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(3000), percent(23.3) })
	load := entry(journal.Load, func(e *journal.Entry) { e.From, e.Volume = "north", gallons(500) })
	load.Time = noon.Add(-19 * time.Hour)
	first := count
	first.Time, first.Volume = noon.Add(-30*time.Hour), gallons(4000)
	entries := []journal.Entry{first, count, load}
	for i := range entries {
		entries[i].Number = i + 1
	}
	report, replay := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.Len(t, report.Problems, 1) // the count is 500 gal below what 4,000 - 500 leave
	require.Equal(t, 2, report.Problems[0].Entry)
	require.InEpsilon(t, 3000, float64(tankOf(t, replay, "north").Volume(quantity.Fahrenheit(60))/quantity.Gallon), 1e-9)
	// A period that begins between them balances.
	report, _ = Season(Request{Shop: demoShop(), From: noon.Add(-20 * time.Hour)}, journal.Effective(entries))
	requireMasses(t, report.Opening.Plus(report.Across), report.Closing, report.Closing.Total(), "balance")
	require.Equal(t, load.Time, report.First)
}

// Batches without the transfers between them: what stood in the tank is taken as gone,
// and said so, and each batch counts in full.
func TestBatchesAlone(t *testing.T) {
	batch := entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1095), percent(23.3) })
	report, _ := Season(Request{Shop: demoShop()}, journal.Effective(number(batch, batch, batch, batch)))
	require.Len(t, report.Problems, 3)
	require.InEpsilon(t, 4*1095, float64(report.Total.Made/quantity.Gallon), 1e-9)
	require.InEpsilon(t, 4*1.095*2417.8, float64(report.Total.Salt/quantity.Pound), 1e-4)
	require.InEpsilon(t, 4*1.095*2288.7, float64(report.Salt.InBrine/quantity.Pound), 1e-4)
}

// The first reading after a batch says how strong it came out: 23.3 % on the glass at 40 F
// is 22.65 %, too weak, whatever was recorded as planned.
func TestBatchIsReadAfterwards(t *testing.T) {
	shown, cold := 23.3, quantity.Fahrenheit(40)
	reading := entry(journal.Reading, func(e *journal.Entry) { e.Tank, e.Scale, e.Reading, e.Temp = "mixer", "hydrometer", &shown, &cold })
	batch := entry(journal.Batch, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "mixer", gallons(1000), percent(23.3) })
	report, _ := Season(Request{Shop: demoShop()}, journal.Effective(number(batch, reading)))
	require.Equal(t, BandCount{Weak: 1}, report.Band)
	require.True(t, report.Batches[0].Read)
}

// A blended truckload is two rows and one load.
func TestBlendedLoad(t *testing.T) {
	part := func(from string) journal.Entry {
		return entry(journal.Load, func(e *journal.Entry) {
			e.From, e.Volume, e.Truck, e.Route, e.Liquid, e.Operator = from, gallons(100), "big-sprayer", "mill-loop", "cold-mix", "Ash"
		})
	}
	report, _ := Season(Request{Shop: demoShop()}, journal.Effective(number(part("north"), part("south"), part("north"))))
	require.Equal(t, 2, report.Routes[0].Loads)
	require.Equal(t, 2, report.Operators[0].Loads)
}

// Brine from outside is no salt off the pile.
func TestBoughtBrineInACorrection(t *testing.T) {
	entries := number(
		entry(journal.Count, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(1000), percent(22) }),
		entry(journal.Correction, func(e *journal.Entry) { e.Tank, e.Volume, e.NaCl = "north", gallons(500), percent(26) }),
	)
	report, _ := Season(Request{Shop: demoShop()}, journal.Effective(entries))
	require.Zero(t, report.Salt.InBrine)
	require.Zero(t, report.Salt.Unexplained)
}
