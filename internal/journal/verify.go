package journal

import (
	"fmt"
	"slices"
	"time"
)

// Audit is a journal and what is remarkable about it.
type Audit struct {
	*Journal
	Kinds       map[Kind]int // how many entries of each
	First, Last time.Time    // the earliest and the latest; zero if there are no entries
	Repeated    []int        // numbers that more than one row has, each once
	Missing     []Span       // numbers that no row has
	Dangling    []Fault      // reversals of nothing
	Backwards   []Fault      // entries more than a day older than the one before; no fault
}

// Span is a run of entry numbers.
type Span struct{ From, To int }

// Sound tells whether nothing is wrong with the file.
func (a *Audit) Sound() bool {
	return len(a.Faults)+len(a.Repeated)+len(a.Missing)+len(a.Dangling) == 0 && a.Torn == 0
}

// Verify reads the journal at path and goes through all of it. Errors are those of
// Read.
func Verify(path string) (*Audit, error) {
	j, err := Read(path)
	if err != nil {
		return nil, err
	}
	a := &Audit{Journal: j, Kinds: map[Kind]int{}, Repeated: slices.Compact(slices.Sorted(slices.Values(j.repeated)))}
	there := make([]int, 0, len(j.Entries))
	for _, e := range j.Entries {
		a.Kinds[e.Kind]++
		there = append(there, e.Number)
	}
	for _, f := range j.Faults {
		if f.Number > 0 {
			there = append(there, f.Number) // its row is there, only not good
		}
	}
	slices.Sort(there)
	a.Missing = missing(there)
	a.times()
	a.dangling()
	return a, nil
}

// missing lists the numbers between sorted ones, from 1.
func missing(sorted []int) []Span {
	var out []Span
	next := 1
	for _, n := range sorted {
		if n > next {
			out = append(out, Span{next, n - 1})
		}
		next = max(next, n+1)
	}
	return out
}

// times finds the first and last time, and where time goes back.
func (a *Audit) times() {
	const day = 24 * time.Hour
	for i, e := range a.Entries {
		if i == 0 || e.Time.Before(a.First) {
			a.First = e.Time
		}
		if i == 0 || e.Time.After(a.Last) {
			a.Last = e.Time
		}
		if i > 0 && a.Entries[i-1].Time.Sub(e.Time) > day {
			a.Backwards = append(a.Backwards, Fault{a.lines[i], e.Number, fmt.Sprintf("its time %s is more than a day before that of the row before, %s",
				e.Time.Format(time.RFC3339), a.Entries[i-1].Time.Format(time.RFC3339))})
		}
	}
}

// dangling finds reversals of what is not there, or comes later.
func (a *Audit) dangling() {
	there := make(map[int]bool, len(a.Entries))
	for i := range a.Entries {
		there[a.Entries[i].Number] = true
	}
	for i, e := range a.Entries {
		if e.Kind == Undo && (!there[e.Cancels] || e.Cancels >= e.Number) {
			a.Dangling = append(a.Dangling, Fault{a.lines[i], e.Number, fmt.Sprintf("takes back entry %d, which is not there before it", e.Cancels)})
		}
	}
}
