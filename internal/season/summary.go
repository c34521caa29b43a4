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

// SumUp replays entries, those taken back left out, in the order of their times, and sums
// up the period.
func SumUp(r Request, entries iter.Seq[*journal.Entry]) Report {
	s := newSummary(r.Yard)
	for _, e := range journal.ByTime(entries) {
		if r.Period.EndsBefore(e.Time) {
			continue // it does not belong to the state at the end
		}
		in := r.Period.Has(e.Time)
		if in && s.report.Entries == 0 {
			s.open()
		}
		before := len(s.state.Problems)
		effect := s.state.Apply(e)
		if in {
			s.add(e, effect)
			s.report.Problems = append(s.report.Problems, s.state.Problems[before:]...)
		}
	}
	return s.finish()
}

// summary collects a report.
type summary struct {
	yard      *yard.Yard
	state     *state.State
	report    Report
	lines     map[lineKey]*Line
	operators map[string]*Operator
	routes    map[string]*Route
	salt      saltTally
	truckload truckload
}

type lineKey struct {
	month  time.Time // its first day
	liquid string
}

func newSummary(y *yard.Yard) *summary {
	s := &summary{
		yard: y, state: state.New(y),
		lines: map[lineKey]*Line{}, operators: map[string]*Operator{}, routes: map[string]*Route{},
	}
	if y == nil {
		s.yard = &yard.Yard{}
	}
	s.report.Band = s.yard.Band()
	return s
}

// open notes what there is before the first entry of the period.
func (s *summary) open() {
	s.report.Opening = s.state.Masses()
	s.salt.opening = s.state.Pile
}

// tallies add an entry to the figures of its kind; add itself does those of every kind.
var tallies = map[journal.Kind]func(*summary, *journal.Entry, state.Effect){
	journal.Batch:      (*summary).addBatch,
	journal.Reading:    (*summary).addReading,
	journal.Correction: (*summary).addPutIn,
	journal.Load:       (*summary).addLoad,
	journal.Delivery:   (*summary).addDelivery,
}

func (s *summary) add(e *journal.Entry, f state.Effect) {
	p := &s.report
	if p.Entries == 0 {
		p.First = e.Time
	}
	p.Entries++
	p.Last = e.Time
	p.Across = p.Across.Plus(f.Into)
	if e.Cost != nil {
		p.Paid += *e.Cost
	}
	s.salt.add(f)
	s.operator(e.Operator).Entries++
	if f.Used > 0 {
		s.line(e, f.UsedLiquid).Used += f.Used
	}
	if tally := tallies[e.Kind]; tally != nil {
		tally(s, e, f)
	}
}

// line finds that of an entry's month and a liquid.
func (s *summary) line(e *journal.Entry, liquid string) *Line {
	key := lineKey{time.Date(e.Time.Year(), e.Time.Month(), 1, 0, 0, 0, 0, time.UTC), liquid}
	l := s.lines[key]
	if l == nil {
		l = &Line{Month: key.month, Liquid: liquid}
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

func (s *summary) addBatch(e *journal.Entry, f state.Effect) {
	s.operator(e.Operator).Batches++
	s.addPutIn(e, f)
	s.line(e, f.Liquid).Made += f.Volume
	tank, _ := s.state.Tank(e.Tank)
	if strength, plain := tank.Liquid.Strength(); plain && f.Volume > 0 {
		s.report.Batches = append(s.report.Batches, Batch{Entry: e.Number, Time: e.Time, Tank: e.Tank, Operator: e.Operator, Strength: strength})
	}
}

// addPutIn adds what a batch or a correction took.
func (s *summary) addPutIn(e *journal.Entry, f state.Effect) {
	l := s.line(e, f.Liquid)
	l.Salt += f.Salt
	l.Water += f.Water
}

// addReading lets the first reading after a batch say how strong it came out.
func (s *summary) addReading(e *journal.Entry, f state.Effect) {
	for i := len(s.report.Batches) - 1; i >= 0; i-- {
		b := &s.report.Batches[i]
		if b.Tank != e.Tank {
			continue
		}
		if f.Read != nil && !b.Read {
			b.Strength, b.Read = f.Read.True, true
		}
		return
	}
}

func (s *summary) addDelivery(e *journal.Entry, f state.Effect) {
	if e.Salt == nil {
		s.line(e, f.Liquid).Delivered += f.Volume
	}
}

// finish puts the parts in order.
func (s *summary) finish() Report {
	p := &s.report
	if p.Entries == 0 {
		s.open()
	}
	p.Closing = s.state.Masses()
	for _, key := range slices.SortedFunc(maps.Keys(s.lines), func(a, b lineKey) int {
		return cmp.Or(a.month.Compare(b.month), cmp.Compare(a.liquid, b.liquid))
	}) {
		l := s.lines[key]
		l.Cost = s.cost(l)
		p.Total.add(l)
		p.Months = append(p.Months, *l)
	}
	p.AtYardPrices = s.ingredientCost(&p.Total)
	s.judge()
	delete(s.operators, "")
	p.Operators = byName(s.operators)
	for _, r := range s.yard.Routes {
		if driven := s.routes[r.Name]; driven != nil && r.Length() > 0 {
			driven.Rate = quantity.MassPerLength(float64(driven.Chlorides) / float64(r.Length()))
		}
	}
	p.Routes = byName(s.routes)
	p.Salt = s.salt.balance(s.yard.RockSalt(), s.state.Pile)
	for _, t := range s.state.Tanks() {
		if t.Made > 0 || len(t.Cleanings) > 0 {
			p.Cleanings = append(p.Cleanings, t.CleaningDue(s.yard.CleanEvery, p.Last))
		}
	}
	return *p
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
		yard.MayPump: &s.report.Judged.In, yard.TooWeak: &s.report.Judged.Weak, yard.TooStrong: &s.report.Judged.Strong,
	}
	for _, b := range s.report.Batches {
		decision := s.report.Band.Judge(b.Strength)
		*count[decision]++
		if decision == yard.MayPump {
			s.operator(b.Operator).InBand++
		}
	}
}

// add adds up months.
func (l *Line) add(o *Line) {
	l.Made += o.Made
	l.Laid += o.Laid
	l.Delivered += o.Delivered
	l.Salt += o.Salt
	l.Water += o.Water
	l.NaCl += o.NaCl
	l.Chlorides += o.Chlorides
}

// cost returns what a line used, at the yard's prices; nil where one of them is not known.
func (s *summary) cost(l *Line) *quantity.Money {
	cost := quantity.Money(0)
	if l.Salt > 0 || l.Water > 0 {
		put := s.ingredientCost(l)
		if put == nil {
			return nil
		}
		cost += *put
	}
	if l.Used > 0 {
		bought, _ := s.yard.Liquid(l.Liquid)
		if bought.Price == nil {
			return nil
		}
		cost += quantity.Money(float64(*bought.Price) * float64(l.Used))
	}
	return &cost
}

// ingredientCost returns the cost of salt and water at the yard's prices; nil where the
// yard file does not have both.
func (s *summary) ingredientCost(l *Line) *quantity.Money {
	salt, water := s.yard.Prices.Salt, s.yard.Prices.Water
	if salt == nil || water == nil {
		return nil
	}
	cost := quantity.Money(float64(*salt)*float64(l.Salt) + float64(*water)*float64(l.Water))
	return &cost
}
