package season

import (
	"cmp"
	"iter"
	"maps"
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/state"
	"brineyard/internal/yard"
)

// SumUp replays entries, those taken back left out, in the order of their times
// (journal.ByTime), and sums up the period. It keeps none of them.
func SumUp(r Request, entries iter.Seq[*journal.Entry]) Report {
	s := newSummary(r)
	for e := range entries {
		if r.Period.EndsBefore(e.Time) {
			continue // it does not belong to the state at the end
		}
		// Clocks that are set back, or stand in two zones, show a time before the period once
		// more. What comes after its first entry belongs to it all the same.
		if s.report.Entries == 0 && !r.Period.Has(e.Time) {
			s.state.Apply(e)
			continue
		}
		if s.report.Entries == 0 {
			s.open()
		}
		s.add(e, s.state.Apply(e))
	}
	return s.finish()
}

// summary collects a report.
type summary struct {
	yard      *yard.Yard
	state     *state.State
	report    Report
	month     time.Time // of the entry that is added: its first day
	lines     map[lineKey]*Line
	moves     map[lineKey]*[state.Classes]quantity.Volume
	standing  map[string]quantity.Volume // at the opening, by liquid
	operators map[string]*Operator
	routes    map[string]*Route
	work      map[workKey]*Work
	paid      map[paidKey]quantity.Money
	last      map[string]int // place of the last batch of each tank among the batches
	salt      saltTally
}

type lineKey struct {
	month  int64 // its first day
	liquid string
}

func newSummary(r Request) *summary {
	s := &summary{
		yard: r.Yard, state: state.New(r.Yard),
		lines: map[lineKey]*Line{}, moves: map[lineKey]*[state.Classes]quantity.Volume{},
		operators: map[string]*Operator{}, routes: map[string]*Route{}, work: map[workKey]*Work{},
		paid: map[paidKey]quantity.Money{}, last: map[string]int{},
	}
	if r.Yard == nil {
		s.yard = &yard.Yard{}
	}
	s.report.Band, s.report.Changed = s.yard.Band(), r.Changed
	return s
}

// open notes what there is before the first entry of the period.
func (s *summary) open() {
	s.report.Opening = s.state.Masses()
	s.standing = s.state.Volumes()
	s.salt.opening = s.state.Pile
}

// tallies add an entry to the figures of its kind; add itself does those of every kind.
var tallies = map[journal.Kind]func(*summary, *journal.Entry, *state.Effect){
	journal.Batch:      (*summary).addBatch,
	journal.Reading:    (*summary).addReading,
	journal.Correction: (*summary).addPutIn,
	journal.Load:       (*summary).addLoad,
	journal.Unload:     (*summary).addUnload,
	journal.Rinse:      func(s *summary, _ *journal.Entry, f *state.Effect) { s.report.Rinsed += f.Water },
}

func (s *summary) add(e *journal.Entry, f *state.Effect) {
	p := &s.report
	if p.Entries == 0 {
		p.First = e.Time
	}
	p.Entries++
	p.Last = e.Time
	s.addProblems(f.Problems)
	if f.LeftOut {
		p.LeftOut++
		return
	}
	if y, m, _ := e.Time.Date(); s.month.Year() != y || s.month.Month() != m {
		s.month = time.Date(y, m, 1, 0, 0, 0, 0, time.UTC)
	}
	s.operator(e.Operator).Entries++
	s.addCost(e)
	s.addWork(e)
	s.addParts(f)
	s.addPile(f)
	if f.Moved > 0 {
		s.line(f.MovedLiquid).Moved += f.Moved
	}
	if f.Used > 0 {
		s.line(f.UsedLiquid).Used += f.Used
	}
	if tally := tallies[e.Kind]; tally != nil {
		tally(s, e, f)
	}
}

// addProblems lists problems, up to a number that nobody reads.
func (s *summary) addProblems(problems []state.Problem) {
	for _, p := range problems {
		if len(s.report.Problems) == state.MostProblems {
			s.report.Unlisted++
			continue
		}
		s.report.Problems = append(s.report.Problems, p)
	}
}

// line finds that of the month and a liquid.
func (s *summary) line(liquid string) *Line {
	key := lineKey{s.month.Unix(), liquid}
	l := s.lines[key]
	if l == nil {
		l = &Line{Month: s.month, Liquid: liquid}
		s.lines[key] = l
	}
	return l
}

// operator finds a person. Unsigned entries go under an empty name, which is not listed.
func (s *summary) operator(name string) *Operator {
	o := s.operators[name]
	if o == nil {
		o = &Operator{Name: name}
		s.operators[name] = o
	}
	return o
}

func (s *summary) addBatch(e *journal.Entry, f *state.Effect) {
	s.operator(e.Operator).Batches++
	s.addPutIn(e, f)
	tank, _ := s.state.Tank(e.Tank)
	if strength, plain := tank.Liquid.Strength(); plain && f.Volume > 0 {
		s.last[e.Tank] = len(s.report.Batches)
		s.report.Batches = append(s.report.Batches, Batch{Entry: e.Number, Time: e.Time, Tank: e.Tank, Operator: e.Operator, Strength: strength, Low: strength, High: strength})
	}
}

// addPutIn adds what a batch or a correction took.
func (s *summary) addPutIn(_ *journal.Entry, f *state.Effect) {
	l := s.line(f.Liquid)
	l.Salt -= f.Pile.Mass
	l.Water += f.Water
}

// addReading lets the first reading after a batch say how strong it came out; while salt need not
// have dissolved yet, a later one may still say so.
func (s *summary) addReading(e *journal.Entry, f *state.Effect) {
	i, made := s.last[e.Tank]
	if !made {
		return
	}
	if b := &s.report.Batches[i]; !b.Read {
		b.Strength, b.Low, b.High = f.Read.True, f.Read.Range.Low, f.Read.Range.High
		b.Read = f.Read.MayReach == 0 || s.report.Band.Judge(b.Strength) == yard.MayPump
	}
}

// finish puts the parts in order.
func (s *summary) finish() Report {
	p := &s.report
	if p.Entries == 0 {
		s.open()
	}
	p.Closing = s.state.Masses()
	for _, f := range p.Flows {
		p.Across = p.Across.Plus(f.Masses)
	}
	for _, key := range slices.SortedFunc(maps.Keys(s.lines), compareLines) {
		l := s.lines[key]
		l.Cost = s.cost(l)
		p.Total.add(l)
		p.Months = append(p.Months, *l)
	}
	p.Stocks = s.stocks()
	p.AtYardPrices = s.ingredientCost(&p.Total)
	s.judge()
	s.closeWork()
	s.closePaid()
	delete(s.operators, "")
	p.Operators = byName(s.operators)
	s.closeRoutes()
	p.Salt = s.salt.balance(s.state.PileSalt, s.state.Pile)
	for _, t := range s.state.Tanks() {
		if t.Made > 0 || t.Cleaned > 0 {
			p.Cleanings = append(p.Cleanings, t.CleaningDue(s.yard.CleanEvery, p.Last))
		}
	}
	return *p
}

func compareLines(a, b lineKey) int {
	return cmp.Or(cmp.Compare(a.month, b.month), cmp.Compare(a.liquid, b.liquid))
}

// byName lists what has names in their order.
func byName[T any](named map[string]*T) []T {
	var all []T
	for _, name := range slices.Sorted(maps.Keys(named)) {
		all = append(all, *named[name])
	}
	return all
}

// judge counts the batches in and out of the band.
func (s *summary) judge() {
	count := map[yard.Decision]*int{
		yard.MayPump: &s.report.Judged.In, yard.OnTheEdge: &s.report.Judged.Edge, yard.TooWeak: &s.report.Judged.Weak, yard.TooStrong: &s.report.Judged.Strong,
	}
	for _, b := range s.report.Batches {
		decision := s.report.Band.JudgeRange(b.Strength, b.Low, b.High)
		*count[decision]++
		if decision == yard.MayPump {
			s.operator(b.Operator).InBand++
		}
	}
}
