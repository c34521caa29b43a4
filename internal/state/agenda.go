package state

import (
	"cmp"
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/yard"
)

// Task is what is to be done.
type Task int

// The tasks.
const (
	ReadTank        Task = iota // a batch or a correction that has not read in the band
	CleanTank                   // a mixing tank
	Receive                     // what was ordered
	CheckHydrometer             // against water or a brine that is known
)

// String names the task.
func (t Task) String() string {
	return [...]string{"read", "clean", "receive", "check the hydrometer"}[t]
}

// Due is something that is to be done.
type Due struct {
	Task    Task
	Where   string    // the tank, or the liquid that comes; empty for salt and the hydrometer
	When    time.Time // zero where nobody said when
	Overdue bool
	Entry   int // that it follows from; 0 for none
}

// openBatch is a batch, with its corrections, that has not read in the band yet.
type openBatch struct {
	entry int       // of the batch, or of the first correction after it was done; 0 for none
	since time.Time // of that entry
	mixed time.Time // when something was put in last
	read  time.Time // the last reading since, out of the band; zero for none
	// salted is set where salt was put in, which need not have dissolved yet.
	salted bool
	// undissolved is NaCl, in kg, by which readings since lie below what was put in.
	undissolved float64
}

// correctedAt opens the tank again, or has it mix once more.
func (b *openBatch) correctedAt(e *journal.Entry) {
	if b.entry == 0 {
		b.entry, b.since = e.Number, e.Time
	}
	b.mixed, b.read = e.Time, time.Time{}
	b.salted = b.salted || e.Salt != nil
}

// readAt closes the batch where the reading lies in the band.
func (b *openBatch) readAt(e *journal.Entry, inBand bool) {
	switch {
	case inBand:
		*b = openBatch{}
	case b.entry > 0:
		b.read = e.Time
	}
}

// drawn closes the batch when more than half of it leaves the tank: what is left is the heel.
func (b *openBatch) drawn(v, had quantity.Volume) {
	if v > had*heelAtMost {
		*b = openBatch{}
	}
}

// What a yard does where its file does not say. Common practice, no source.
const (
	usualMixing = 30 * time.Minute // from the last that was put in to the first reading
	readAgain   = 10 * time.Minute // from a reading out of the band to the next
)

// due is when the tank is to be read next.
func (b *openBatch) due(mixing quantity.Duration) time.Time {
	if !b.read.IsZero() {
		return b.read.Add(readAgain)
	}
	if mixing == 0 {
		return b.mixed.Add(usualMixing)
	}
	return b.mixed.Add(time.Duration(float64(mixing) * float64(time.Second)).Round(time.Second))
}

// Running is a mixing tank with a batch that has not read in the band.
type Running struct {
	Tank  string
	Entry int // the batch, or the correction that opened it again
	Since time.Time
}

// Running returns what runs now in the mixing tanks of a yard, in their order. The yard is nil
// where there is no file.
func (s *State) Running(y *yard.Yard) []Running {
	if y == nil {
		return nil
	}
	var all []Running
	for _, m := range y.MixingTanks() {
		if t := s.tanks[m.Name]; t != nil && t.open.entry > 0 {
			all = append(all, Running{m.Name, t.open.entry, t.open.since})
		}
	}
	return all
}

// Agenda returns what is to be done, the earliest first; what has no time comes first of all.
// The yard is nil where there is no file.
func (s *State) Agenda(y *yard.Yard, now time.Time) []Due {
	all := s.receive()
	if y != nil {
		for _, m := range y.MixingTanks() {
			all = append(all, s.tend(m, y.CleanEvery, now)...)
		}
		if check, due := hydrometerCheck(y, now); due {
			all = append(all, check)
		}
	}
	for i := range all {
		all[i].Overdue = all[i].Overdue || !all[i].When.IsZero() && all[i].When.Before(now)
	}
	slices.SortStableFunc(all, func(a, b Due) int { return cmp.Or(a.When.Compare(b.When), cmp.Compare(a.Task, b.Task)) })
	return all
}

// A date of a cleaning is a guess before there is a pace of a week, or when it is months ahead.
const (
	pacedAfter  = 7 * 24 * time.Hour
	monthsAhead = 3
)

// tend is what is to be done at a mixing tank.
func (s *State) tend(m yard.Tank, every quantity.Volume, now time.Time) []Due {
	t := s.tanks[m.Name]
	if t == nil {
		return nil
	}
	var all []Due
	if t.open.entry > 0 {
		all = append(all, Due{Task: ReadTank, Where: m.Name, When: t.open.due(m.MixTime), Entry: t.open.entry})
	}
	c := t.CleaningDue(every, now)
	if paced := now.Sub(t.First) > pacedAfter && c.Date.Before(now.AddDate(0, monthsAhead, 0)); !c.Date.IsZero() && (paced || c.Left == 0) {
		all = append(all, Due{Task: CleanTank, Where: m.Name, When: c.Date, Overdue: c.Left == 0})
	}
	return all
}

// receive is what is still to come.
func (s *State) receive() []Due {
	var all []Due
	for _, o := range s.Orders() {
		all = append(all, Due{Task: Receive, Where: o.Liquid, When: o.Due, Entry: o.Entry})
	}
	return all
}

// hydrometerCheck is due a season after the last, or at once where there was none.
func hydrometerCheck(y *yard.Yard, now time.Time) (Due, bool) {
	checked := y.LastChecked()
	if checked.IsZero() {
		return Due{Task: CheckHydrometer, Overdue: true}, true
	}
	next := checked.AddDate(0, yard.CheckedMonths, 0)
	return Due{Task: CheckHydrometer, When: next}, !now.Before(next)
}
