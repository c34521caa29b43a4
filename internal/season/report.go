package season

import (
	"cmp"
	"iter"
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Wall returns what the clock of a time's own zone shows, as if it were UTC: days and
// months are those of the place.
func Wall(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, time.UTC)
}

// Request asks what happened from a time (zero for the beginning) up to another (zero
// for the end), both as clocks at the place show them (Wall).
type Request struct {
	Shop     Shop
	From, To time.Time
}

// Report is a season.
type Report struct {
	First, Last time.Time // entries in it
	Entries     int
	Months      []Line // by month and liquid
	Total       Line
	Batches     []BatchMade
	Band        BandCount
	Operators   []Operator
	Routes      []Route
	Salt        SaltBalance
	Cleanings   []Due // of the tanks in which brine was made
	Opening     Masses
	Closing     Masses
	Across      Masses // that went into the tanks, less what left: Closing - Opening
	Paid        quantity.Money
	// Reckoned is the salt and water used at the yard's prices; nil without them.
	Reckoned *quantity.Money
	Problems []Problem
}

// Line sums up a month and a liquid.
type Line struct {
	Month           time.Time // its first day; zero for a total
	Liquid          string
	Made, Laid      quantity.Volume
	Delivered, Used quantity.Volume // of a bought liquid
	Salt            quantity.Mass   // off the pile, as delivered
	Water           quantity.Volume
	NaCl, Chlorides quantity.Mass // laid; Chlorides is of chloride ion
	// Cost is salt, water and what was used of a bought liquid, at the yard's prices; nil
	// where one of them is not known. A total has none.
	Cost *quantity.Money
}

// BatchMade is a batch and the strength that was measured.
type BatchMade struct {
	Entry          int
	Time           time.Time
	Tank, Operator string
	Strength       quantity.Strength // read after it, else as it was recorded
	Read           bool
}

// BandCount counts batches.
type BandCount struct{ In, Weak, Strong int }

// Operator sums up what a person recorded.
type Operator struct {
	Name    string
	Batches int
	InBand  int
	Loads   int
	Entries int
}

// Route sums up what a route was given. Rate is 0 where its lanes are not known.
type Route struct {
	Name      string
	Loads     int
	Volume    quantity.Volume
	Chlorides quantity.Mass
	Rate      quantity.MassPerLength // of chloride on a lane
}

// Season replays entries, those taken back left out, in the order of their times, and
// sums up the period. Entries of one time keep the order of the file.
func Season(r Request, entries iter.Seq[*journal.Entry]) (Report, *Replay) {
	s := newSummary(r)
	for _, e := range inTime(entries) {
		at := Wall(e.Time)
		in := !at.Before(r.From) && (r.To.IsZero() || at.Before(r.To))
		if in && s.report.Entries == 0 {
			s.open()
		}
		if !r.To.IsZero() && !at.Before(r.To) {
			continue // later ones do not belong to the state at the end
		}
		before := len(s.replay.Problems)
		flow := s.replay.Apply(e)
		if in {
			s.add(e, flow)
			s.report.Problems = append(s.report.Problems, s.replay.Problems[before:]...)
		}
	}
	return s.finish(), s.replay
}

// inTime puts entries in the order of their times: one that was recorded late counts
// where it belongs.
func inTime(entries iter.Seq[*journal.Entry]) []*journal.Entry {
	all := slices.Collect(entries)
	byTime := func(a, b *journal.Entry) int { return a.Time.Compare(b.Time) }
	if !slices.IsSortedFunc(all, byTime) {
		slices.SortStableFunc(all, byTime)
	}
	return all
}

// summary collects a report.
type summary struct {
	shop      *Shop
	replay    *Replay
	report    Report
	lines     map[lineKey]*Line
	operators map[string]*Operator
	routes    map[string]*Route
	salt      saltCount
	lastLoad  *journal.Entry
	loadTanks []string // that the last load came from
}

type lineKey struct {
	year   int
	month  time.Month
	liquid string
}

func newSummary(r Request) *summary {
	return &summary{
		shop: &r.Shop, replay: NewReplay(r.Shop),
		lines: map[lineKey]*Line{}, operators: map[string]*Operator{}, routes: map[string]*Route{},
	}
}

// stand sums up the tanks.
func (s *summary) stand() Masses {
	var m Masses
	for _, t := range s.replay.Tanks() {
		m = m.Plus(t.Masses())
	}
	return m
}

func (s *summary) open() {
	s.report.Opening = s.stand()
	s.salt.opening = s.replay.Pile
}

func (s *summary) add(e *journal.Entry, f Flow) {
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
	s.salt.add(e, f)
	s.addOperator(e)
	if f.Used > 0 {
		s.line(e, f.UsedLiquid).Used += f.Used
	}
	switch e.Kind {
	case journal.Batch:
		s.addBatch(e, f)
	case journal.Reading:
		s.addReading(e)
	case journal.Correction:
		l := s.line(e, f.Liquid)
		l.Salt += f.Salt
		l.Water += f.Water
	case journal.Load:
		s.addLoad(e, f)
	case journal.Delivery:
		if e.Salt == nil {
			s.line(e, f.Liquid).Delivered += f.Volume
		}
	}
}

// line finds that of an entry's month and a liquid.
func (s *summary) line(e *journal.Entry, liquid string) *Line {
	key := lineKey{e.Time.Year(), e.Time.Month(), liquid}
	l := s.lines[key]
	if l == nil {
		l = &Line{Month: time.Date(key.year, key.month, 1, 0, 0, 0, 0, time.UTC), Liquid: liquid}
		s.lines[key] = l
	}
	return l
}

func (s *summary) addBatch(e *journal.Entry, f Flow) {
	l := s.line(e, f.Liquid)
	l.Made += f.Volume
	l.Salt += f.Salt
	l.Water += f.Water
	strength, plain := s.replay.tank(e.Tank).Liquid.Strength()
	if f.Volume <= 0 || !plain {
		return
	}
	s.report.Batches = append(s.report.Batches, BatchMade{Entry: e.Number, Time: e.Time, Tank: e.Tank, Operator: e.Operator, Strength: strength})
}

// addReading lets the first reading after a batch say how strong it came out.
func (s *summary) addReading(e *journal.Entry) {
	for i := len(s.report.Batches) - 1; i >= 0; i-- {
		b := &s.report.Batches[i]
		if b.Tank != e.Tank {
			continue
		}
		if strength, ok := s.replay.strengthRead(e); ok && !b.Read {
			b.Strength, b.Read = strength, true
		}
		return
	}
}

// judge counts the batches in and out of the band.
func (s *summary) judge(p *Report) {
	for _, b := range p.Batches {
		switch band := s.shop.Band; {
		case b.Strength < band.Low:
			p.Band.Weak++
		case b.Strength > band.High:
			p.Band.Strong++
		default:
			p.Band.In++
			if o := s.operators[b.Operator]; o != nil {
				o.InBand++
			}
		}
	}
}

func (s *summary) addLoad(e *journal.Entry, f Flow) {
	l := s.line(e, f.Liquid)
	chloride := quantity.Mass(-f.Into.Chloride())
	l.Laid += f.Volume
	l.NaCl -= quantity.Mass(f.Into.NaCl)
	l.Chlorides += chloride
	again := s.sameLoad(e)
	if !again {
		if o := s.operators[e.Operator]; o != nil {
			o.Loads++
		}
	}
	if e.Route == "" {
		return
	}
	r := s.routes[e.Route]
	if r == nil {
		r = &Route{Name: e.Route}
		s.routes[e.Route] = r
	}
	if !again {
		r.Loads++
	}
	r.Volume += f.Volume
	r.Chlorides += chloride
}

func (s *summary) addOperator(e *journal.Entry) {
	if e.Operator == "" {
		return
	}
	o := s.operators[e.Operator]
	if o == nil {
		o = &Operator{Name: e.Operator}
		s.operators[e.Operator] = o
	}
	o.Entries++
	if e.Kind == journal.Batch {
		o.Batches++
	}
}

// together is within what a blended truckload is recorded: a row for each tank.
const together = time.Hour

// sameLoad tells whether a load is the other part of the one before: the same truck and
// route and blend out of another tank.
func (s *summary) sameLoad(e *journal.Entry) bool {
	last := s.lastLoad
	s.lastLoad = e
	same := last != nil && e.Truck != "" && e.Liquid != "" && last.Truck == e.Truck && last.Route == e.Route && last.Liquid == e.Liquid &&
		!slices.Contains(s.loadTanks, e.From) && e.Time.Sub(last.Time) <= together
	if !same {
		s.loadTanks = s.loadTanks[:0]
	}
	s.loadTanks = append(s.loadTanks, e.From)
	return same
}

// finish puts the parts in order.
func (s *summary) finish() Report {
	p := s.report
	if p.Entries == 0 {
		s.open()
		p = s.report
	}
	p.Closing = s.stand()
	for _, l := range s.lines {
		l.Cost = s.costOf(l)
		p.Months = append(p.Months, *l)
	}
	slices.SortFunc(p.Months, func(a, b Line) int {
		return cmp.Or(a.Month.Compare(b.Month), cmp.Compare(a.Liquid, b.Liquid))
	})
	for i := range p.Months {
		p.Total.add(&p.Months[i])
	}
	s.judge(&p)
	for _, o := range s.operators {
		p.Operators = append(p.Operators, *o)
	}
	slices.SortFunc(p.Operators, func(a, b Operator) int { return cmp.Compare(a.Name, b.Name) })
	for _, route := range s.routes {
		if lanes := s.shop.Lanes[route.Name]; lanes > 0 {
			route.Rate = quantity.MassPerLength(float64(route.Chlorides) / float64(lanes))
		}
		p.Routes = append(p.Routes, *route)
	}
	slices.SortFunc(p.Routes, func(a, b Route) int { return cmp.Compare(a.Name, b.Name) })
	p.Salt = s.salt.balance(s.shop, s.replay.Pile)
	p.Reckoned = s.reckon(p.Total)
	for _, t := range s.replay.Tanks() {
		if t.Made > 0 || len(t.Cleanings) > 0 {
			p.Cleanings = append(p.Cleanings, t.due(s.shop.CleanEvery, p.Last))
		}
	}
	return p
}

func (l *Line) add(o *Line) {
	l.Made += o.Made
	l.Laid += o.Laid
	l.Delivered += o.Delivered
	l.Salt += o.Salt
	l.Water += o.Water
	l.NaCl += o.NaCl
	l.Chlorides += o.Chlorides
}

// reckon prices salt and water.
// costOf prices a month's use of a liquid.
func (s *summary) costOf(l *Line) *quantity.Money {
	cost := quantity.Money(0)
	if l.Salt > 0 || l.Water > 0 {
		made := s.reckon(*l)
		if made == nil {
			return nil
		}
		cost += *made
	}
	if l.Used > 0 {
		price, known := s.shop.LiquidPrices[l.Liquid]
		if !known {
			return nil
		}
		cost += quantity.Money(float64(price) * float64(l.Used))
	}
	return &cost
}

func (s *summary) reckon(total Line) *quantity.Money {
	if s.shop.SaltPrice == nil || s.shop.WaterPrice == nil {
		return nil
	}
	m := quantity.Money(float64(*s.shop.SaltPrice)*float64(total.Salt) + float64(*s.shop.WaterPrice)*float64(total.Water))
	return &m
}
