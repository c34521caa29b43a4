package journal

import (
	"iter"
	"slices"
	"time"
)

// WallClock returns what the clock of a time's own zone shows, as if it were UTC: days and
// months are those of the place.
func WallClock(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
}

// Period is the time from From (zero for the beginning) up to To (zero for the end), as
// clocks at the place show them (WallClock). To itself is left out.
type Period struct{ From, To time.Time }

// Has reports whether a time lies in the period.
func (p Period) Has(t time.Time) bool { return !WallClock(t).Before(p.From) && !p.EndsBefore(t) }

// EndsBefore reports whether the period is over at a time.
func (p Period) EndsBefore(t time.Time) bool { return !p.To.IsZero() && !WallClock(t).Before(p.To) }

// ByTime puts entries in the order of their times: one that was recorded late counts where
// it belongs. Entries of one time keep the order of the file.
func ByTime(entries iter.Seq[*Entry]) []*Entry {
	all := slices.Collect(entries)
	byTime := func(a, b *Entry) int { return a.Time.Compare(b.Time) }
	if !slices.IsSortedFunc(all, byTime) {
		slices.SortStableFunc(all, byTime)
	}
	return all
}
