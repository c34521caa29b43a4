package enter

import (
	"iter"
	"maps"
	"slices"
	"strings"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/journal/disk"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// longBefore is how much older than the last entry one may be without a word: a night's rows
// are often written down in the morning.
const longBefore = 24 * time.Hour

// Follows finds the entries that those of the journal contradict: the same entry again, more out
// of a vessel than stands in it, more into it than it takes, one that makes no sense behind them, or
// a time long before the last entry.
// The journal is nil where it has no rows yet. Errors: it cannot be read any more.
func (d Desk) Follows(l *disk.Log, entries []journal.Entry) ([]Refusal, error) {
	if d.AsSeen {
		return nil, nil
	}
	repeats, err := disk.Repeats(l, entries)
	if err != nil {
		return nil, err
	}
	if len(repeats) > 0 {
		return d.repeated(repeats, entries), nil
	}
	if l == nil {
		return d.follows(func(func(*journal.Entry) bool) {}, entries), nil
	}
	refused := d.follows(l.Effective(), entries)
	return refused, l.Err()
}

// repeated refuses what is in the journal already.
func (d Desk) repeated(repeats map[int]int, entries []journal.Entry) []Refusal {
	var refused []Refusal
	for _, i := range slices.Sorted(maps.Keys(repeats)) {
		r := d.refuse("", "", "%s says the same already; allowed: another entry, or %s", entryText(repeats[i], entries[i].Time), asSeen)
		r.Entry = i
		refused = append(refused, *r)
	}
	return refused
}

// follows is Follows for the journal's entries in the order of their times, without those that
// were taken back; one of them is valid until the next is asked for.
func (d Desk) follows(there iter.Seq[*journal.Entry], entries []journal.Entry) []Refusal {
	if d.AsSeen {
		return nil
	}
	r := replay{desk: d, state: state.New(d.Yard), entries: entries, order: byTime(entries)}
	for e := range there {
		r.upTo(e.Time)
		r.state.Apply(e)
		r.state.Problems = nil // those were told of when it was written down
		r.last = moment{e.Number, e.Time}
	}
	r.upTo(time.Time{})
	if !d.Old {
		r.late()
	}
	slices.SortStableFunc(r.refused, func(a, b Refusal) int { return a.Entry - b.Entry })
	return r.refused
}

// byTime lists the places of entries in the order of their times.
func byTime(entries []journal.Entry) []int {
	order := make([]int, len(entries))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return entries[a].Time.Compare(entries[b].Time) })
	return order
}

// replay goes through the journal with the new entries in their places.
type replay struct {
	desk    Desk
	state   *state.State
	entries []journal.Entry
	order   []int // of the entries that are still to come
	last    moment
	refused []Refusal
}

// moment is an entry of the journal, and its time.
type moment struct {
	number int
	time   time.Time
}

// upTo applies the new entries before a time, all of them for no time. Of equal times the
// journal's come first.
func (r *replay) upTo(t time.Time) {
	for len(r.order) > 0 && (t.IsZero() || r.entries[r.order[0]].Time.Before(t)) {
		r.apply(r.order[0])
		r.order = r.order[1:]
	}
}

func (r *replay) apply(i int) {
	e := r.entries[i]
	e.Number = -1 - i // none of the journal's
	from, into := r.stands(e.From), r.stands(e.Tank)
	r.state.Apply(&e)
	for _, p := range r.state.Problems {
		if p.Cannot || p.LeftOut {
			refusal := r.desk.cannot(&e, p, from, into)
			refusal.Entry = i
			r.refused = append(r.refused, *refusal)
			break
		}
	}
	r.state.Problems = nil
}

// standing is what a tank holds before an entry.
type standing struct {
	known bool
	holds quantity.Volume
	said  yard.Said
}

func (r *replay) stands(name string) standing {
	t, named := r.state.Tank(name)
	if !named {
		return standing{}
	}
	return standing{t.Known, t.Volume(), t.Said}
}

// cannot says why an entry cannot be: what stands there, and by which entry.
func (d Desk) cannot(e *journal.Entry, p state.Problem, from, into standing) *Refusal {
	switch takes := d.takes(e.Tank); {
	case e.Volume == nil || p.LeftOut:
	case from.known && *e.Volume > from.holds:
		return d.refuse("volume", "", "%s holds %v %s, so %v cannot come out of it; allowed: up to %v, or %s",
			e.From, from.holds, by(from.said), *e.Volume, from.holds, asSeen)
	case into.known && takes > 0:
		return d.refuse("volume", "", "%s holds %v %s, so %v cannot go into its %v; allowed: up to %v, or %s",
			e.Tank, into.holds, by(into.said), *e.Volume, takes, max(0, takes-into.holds), asSeen)
	}
	p.Text = strings.TrimSuffix(p.Text, ": left out")
	args := make([]any, len(p.Args))
	for i, a := range p.Args {
		args[i] = a
	}
	return d.refuse("", "", "%s; allowed: %s", d.View.Say(p.Text, args...), asSeen)
}

// takes is what a tank of the yard file can hold; 0 where that is not known.
func (d Desk) takes(tank string) quantity.Volume {
	if d.Yard == nil {
		return 0
	}
	t, _ := d.Yard.Tank(tank)
	return t.Capacity
}

// by says who said what stands in a tank.
func by(s yard.Said) string {
	if !s.ByJournal() {
		return "by the yard file"
	}
	return "by " + entryText(s.Entry, s.Time)
}

// late refuses times long before the last entry.
func (r *replay) late() {
	if r.last.number == 0 {
		return
	}
	for i := range r.entries {
		if at := r.entries[i].Time; r.last.time.Sub(at) > longBefore {
			refusal := r.desk.refuse("time", stamp(at), "that is long before the last entry, %s; allowed: from %s on, or %s",
				entryText(r.last.number, r.last.time), stamp(r.last.time.Add(-longBefore)), asSeen)
			refusal.Entry = i
			r.refused = append(r.refused, *refusal)
		}
	}
}
