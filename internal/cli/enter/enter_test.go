package enter

import (
	"slices"
	"testing"
	"time"

	"brineyard/internal/balance"
	"brineyard/internal/cli/show"
	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const gal = quantity.Gallon

// village is a yard of two tanks, a truck, a liquid and two lines.
func village() *yard.Yard {
	return &yard.Yard{
		Path: "yard.toml",
		Tanks: []yard.Tank{
			{Name: "mixer", Mixing: true, Capacity: 1000 * gal},
			{Name: "north-1", Capacity: 5000 * gal},
			{Name: "north-2", Capacity: 5000 * gal},
		},
		Trucks:   []yard.Truck{{Name: "big-sprayer", Tank: 1500 * gal}},
		Routes:   []yard.Route{{Name: "Ridge Road"}},
		Liquids:  []yard.Liquid{{Liquid: balance.Liquid{Name: "cal31"}}},
		Plumbing: yard.Plumbing{Links: []yard.Link{{Name: "S1", Valve: true}, {Name: "header"}}},
	}
}

// seven is the time at which these tests write.
var seven = time.Date(2026, 1, 14, 7, 0, 0, 0, time.UTC)

func desk() Desk { return Desk{Yard: village(), Now: seven} }

func volume(v float64) *quantity.Volume {
	q := quantity.Volume(v) * gal
	return &q
}

func salt(kg float64) *quantity.Mass {
	q := quantity.Mass(kg)
	return &q
}

func strength(w quantity.Strength) *quantity.Strength { return &w }

// A name is taken as it is typed, in other letters, with spaces for hyphens, or by a beginning
// that fits one alone.
func TestNames(t *testing.T) {
	e := journal.Entry{Kind: journal.Transfer, Tank: "NORTH 2", From: "mi", Truck: "Big_Sprayer", Route: "ridge-road", Liquid: "CAL31", Line: "head"}
	require.Nil(t, desk().Names(&e))
	require.Equal(t, []string{"north-2", "mixer", "big-sprayer", "Ridge Road", "cal31", "header"},
		[]string{e.Tank, e.From, e.Truck, e.Route, e.Liquid, e.Line})

	for typed, want := range map[journal.Entry]string{
		{Tank: "north"}:                       `--tank "north": not in yard.toml; allowed: mixer, north-1, north-2`,
		{Tank: "pile"}:                        `--tank "pile": not in yard.toml; allowed: mixer, north-1, north-2`,
		{Kind: journal.Load, From: "barn"}:    `--from "barn": not in yard.toml; allowed: mixer, north-1, north-2`,
		{Line: "hose"}:                        `--line "hose": not in yard.toml; allowed: S1, header`,
		{Kind: journal.Clean, From: DrawnOff}: `--from "drawn-off": not in yard.toml; allowed: mixer, north-1, north-2`,
	} {
		r := desk().Names(&typed)
		require.NotNil(t, r, want)
		require.Equal(t, want, r.Flag())
	}
	for _, e := range []journal.Entry{{Kind: journal.Count, Tank: "Pile"}, {Kind: journal.Transfer, From: DrawnOff, Tank: "mixer"}} {
		require.Nil(t, desk().Names(&e))
	}
	free := journal.Entry{Tank: "Any"}
	require.Nil(t, Desk{}.Names(&free))
	require.Equal(t, "Any", free.Tank)
}

// What an entry alone is refused for, and whether it stands all the same when it was seen so.
func TestFits(t *testing.T) {
	day := func(d int) *time.Time {
		at := time.Date(2026, 1, d, 0, 0, 0, 0, time.UTC)
		return &at
	}
	for _, c := range []struct {
		entry journal.Entry
		want  string // empty for none
		hard  bool   // refused even when it was seen so
	}{
		{journal.Entry{Kind: journal.Note, Time: seven.Add(5 * time.Minute)}, "", false},
		{journal.Entry{Kind: journal.Note, Time: seven.Add(5*time.Minute + time.Second)}, `--at "2026-01-14 07:05": that is to come`, true},
		{journal.Entry{Kind: journal.Order, Due: day(14)}, "", false},
		{journal.Entry{Kind: journal.Order, Due: day(13)}, `--due "2026-01-13 00:00": that is before the day of the order; allowed: from 2026-01-14 on`, true},
		{journal.Entry{Kind: journal.Batch, Tank: "mixer", Volume: volume(1000)}, "", false},
		{journal.Entry{Kind: journal.Batch, Tank: "mixer", Volume: volume(1001)}, `--volume: 1,001 gal is more than tank "mixer" can hold; allowed: up to 1,000 gal, or --as-seen`, false},
		{journal.Entry{Kind: journal.Batch, Tank: "north-1", Volume: volume(9)}, `--tank "north-1": no mixing tank`, true},
		{journal.Entry{Kind: journal.Count, Tank: "north-1", Volume: volume(5001)}, `can hold; allowed: up to 5,000 gal`, false},
		{journal.Entry{Kind: journal.Count, Tank: "north-1", Salt: salt(9)}, `--tank "north-1": no mixing tank, so no bed`, true},
		{journal.Entry{Kind: journal.Count, Tank: "mixer", Salt: salt(9)}, "", false},
		{journal.Entry{Kind: journal.Count, Salt: salt(9)}, "", false},
		{journal.Entry{Kind: journal.Load, From: "north-1", Truck: "big-sprayer", Volume: volume(1500)}, "", false},
		{journal.Entry{Kind: journal.Load, From: "north-1", Truck: "big-sprayer", Volume: volume(1501)}, `truck "big-sprayer" can hold; allowed: up to 1,500 gal, or --as-seen`, false},
		{journal.Entry{Kind: journal.Unload, Tank: "north-1", Truck: "big-sprayer", Volume: volume(1501)}, `truck "big-sprayer"`, false},
		{journal.Entry{Kind: journal.Count, Truck: "big-sprayer", Volume: volume(1501)}, `truck "big-sprayer"`, false},
	} {
		if c.entry.Time.IsZero() {
			c.entry.Time = seven
		}
		d := desk()
		refused := d.Fits([]journal.Entry{{Kind: journal.Note, Time: seven}, c.entry})
		if c.want == "" {
			require.Empty(t, refused, "%v", c.entry)
			continue
		}
		require.Len(t, refused, 1, c.want)
		require.Equal(t, 1, refused[0].Entry)
		require.Contains(t, refused[0].Flag(), c.want)
		d.AsSeen = true
		require.Equal(t, c.hard, len(d.Fits([]journal.Entry{c.entry})) > 0, c.want)
	}
}

// yesterdays are a count of 700 gal in north-1 at 5:00, and a load of 200 gal at 6:00.
func yesterdays() []journal.Entry {
	return []journal.Entry{
		{Number: 1, Kind: journal.Count, Time: at(5, 0), Tank: "north-1", Volume: volume(700), NaCl: strength(0.233)},
		{Number: 2, Kind: journal.Load, Time: at(6, 0), From: "north-1", Volume: volume(200)},
	}
}

func at(hour, minute int) time.Time { return time.Date(2026, 1, 14, hour, minute, 0, 0, time.UTC) }

// follows holds entries against those of yesterdays.
func follows(d Desk, entries ...journal.Entry) []Refusal {
	there := yesterdays()
	return d.follows(func(yield func(*journal.Entry) bool) {
		one := journal.Entry{} // valid until the next, as a reader of a long file has it
		for _, one = range there {
			if !yield(&one) {
				return
			}
		}
	}, entries)
}

func load(hour, minute int, gallons float64) journal.Entry {
	return journal.Entry{Kind: journal.Load, Time: at(hour, minute), From: "north-1", Volume: volume(gallons)}
}

// 700 less 200 leave 500 gal, of which no more can come out; and 4,500 gal more fit into 5,000.
func TestFollows(t *testing.T) {
	in := func(gallons float64) journal.Entry {
		return journal.Entry{Kind: journal.Delivery, Time: at(6, 30), Tank: "north-1", Volume: volume(gallons), NaCl: strength(0.233)}
	}
	for _, c := range []struct {
		entries []journal.Entry
		at      []int // of those that are refused
		want    string
	}{
		{[]journal.Entry{load(6, 30, 500)}, nil, ""},
		{[]journal.Entry{load(6, 30, 510)}, []int{0}, "--volume: north-1 holds 500 gal by entry 2 of 2026-01-14 06:00, so 510 gal cannot come out of it; allowed: up to 500 gal, or --as-seen"},
		{[]journal.Entry{load(6, 30, 300), load(6, 40, 300)}, []int{1}, "north-1 holds 200 gal by"},
		{[]journal.Entry{load(6, 40, 300), load(6, 30, 300)}, []int{0}, "north-1 holds 200 gal by"}, // by their times
		{[]journal.Entry{load(5, 30, 650)}, nil, ""}, // before the load of entry 2
		{[]journal.Entry{load(5, 30, 750)}, []int{0}, "north-1 holds 700 gal by entry 1 of 2026-01-14 05:00"},
		{[]journal.Entry{in(4490)}, nil, ""},
		{[]journal.Entry{in(4600)}, []int{0}, "--volume: north-1 holds 500 gal by entry 2 of 2026-01-14 06:00, so 4,600 gal cannot go into its 5,000 gal; allowed: up to 4,500 gal, or --as-seen"},
	} {
		refused := follows(desk(), c.entries...)
		var places []int
		for _, r := range refused {
			places = append(places, r.Entry)
		}
		require.Equal(t, c.at, places, "%v", c)
		if len(refused) > 0 {
			require.Contains(t, refused[0].Flag(), c.want)
		}
		d := desk()
		d.AsSeen = true
		require.Empty(t, follows(d, c.entries...))
	}
}

// A time may lie a day before the last entry, and no more; the rows of an older log may.
func TestLongBefore(t *testing.T) {
	note := func(d time.Duration) journal.Entry {
		return journal.Entry{Kind: journal.Note, Time: at(6, 0).Add(-d), Note: "x"}
	}
	require.Empty(t, follows(desk(), note(24*time.Hour)))
	refused := follows(desk(), note(24*time.Hour+time.Minute))
	require.Len(t, refused, 1)
	require.Equal(t, `--at "2026-01-13 05:59": that is long before the last entry, entry 2 of 2026-01-14 06:00; allowed: from 2026-01-13 06:00 on, or --as-seen if it was seen so`,
		refused[0].Flag())
	old := desk()
	old.Old = true
	require.Empty(t, follows(old, note(9999*time.Hour)))
	require.Empty(t, desk().follows(slices.Values([]*journal.Entry{}), []journal.Entry{note(9999 * time.Hour)}))
}

// In metric units a refusal speaks metric.
func TestMetric(t *testing.T) {
	d := desk()
	d.View = show.View{System: quantity.Metric}
	refused := follows(d, load(6, 30, 510))
	require.Contains(t, refused[0].Error(), "volume: north-1 holds 1 893 L by")
}

// Loads of any sizes at any times after the count are refused exactly where a running sum of
// what is left falls short.
func TestFollowsProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.IntRange(1, 300), 1, 12).Draw(t, "gallons")
		left, short := 500, 0
		var entries []journal.Entry
		for i, gallons := range sizes {
			entries = append(entries, load(6, 1+i, float64(gallons)))
			if gallons > left {
				short++
				left = 0 // as the replay leaves the tank, or below what the next takes
			} else {
				left -= gallons
			}
		}
		refused := follows(desk(), entries...)
		require.Len(t, refused, short)
		for _, r := range refused {
			require.Equal(t, "volume", r.Field)
		}
	})
}
