package season

import (
	"cmp"
	"maps"
	"slices"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

// Payment is what was paid, as recorded, by what for.
type Payment struct {
	Kind   journal.Kind // of the entries
	Liquid string       // that was bought; empty for anything else
	Money  quantity.Money
}

type paidKey struct {
	kind   journal.Kind
	liquid string
}

func (s *summary) addCost(e *journal.Entry) {
	if e.Cost == nil {
		return
	}
	s.report.Paid += *e.Cost
	key := paidKey{kind: e.Kind}
	if e.Kind == journal.Delivery {
		key.liquid = e.Liquid
	}
	s.paid[key] += *e.Cost
}

func (s *summary) closePaid() {
	for key, money := range s.paid {
		s.report.PaidFor = append(s.report.PaidFor, Payment{key.kind, key.liquid, money})
	}
	slices.SortFunc(s.report.PaidFor, func(a, b Payment) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Liquid, b.Liquid))
	})
}

// Work is what a person worked and drove in a month, with a truck or without.
type Work struct {
	Month           time.Time // its first day
	Operator, Truck string    // empty where the entries do not say
	Hours           quantity.Duration
	Distance        quantity.Length
}

type workKey struct {
	month           int64
	operator, truck string
}

func (k workKey) compare(o workKey) int {
	return cmp.Or(cmp.Compare(k.month, o.month), cmp.Compare(k.operator, o.operator), cmp.Compare(k.truck, o.truck))
}

// The hours of a batch are those of its water, and nobody's work.
func (s *summary) addWork(e *journal.Entry) {
	if e.Hours == nil && e.Distance == nil || e.Kind == journal.Batch {
		return
	}
	key := workKey{s.month.Unix(), e.Operator, e.Truck}
	w := s.work[key]
	if w == nil {
		w = &Work{Month: s.month, Operator: e.Operator, Truck: e.Truck}
		s.work[key] = w
	}
	if e.Hours != nil {
		w.Hours += *e.Hours
	}
	if e.Distance != nil {
		w.Distance += *e.Distance
	}
}

// closeWork lists the work, and prices it where the yard has a price.
func (s *summary) closeWork() {
	p := &s.report
	for _, key := range slices.SortedFunc(maps.Keys(s.work), workKey.compare) {
		w := *s.work[key]
		p.Work = append(p.Work, w)
		p.Hours += w.Hours
		p.Distance += w.Distance
		o := s.operator(w.Operator)
		o.Hours += w.Hours
		o.Distance += w.Distance
	}
	if price := s.yard.Prices.Labour; price != nil {
		cost := quantity.Money(float64(*price) * float64(p.Hours))
		p.Labour = &cost
	}
	if price := s.yard.Prices.Driving; price != nil {
		cost := quantity.Money(float64(*price) * float64(p.Distance))
		p.Driving = &cost
	}
}

// cost returns what a line used, at the yard's prices; nil where one of them is not known.
func (s *summary) cost(l *Line) *quantity.Money {
	cost := quantity.Money(0)
	if l.Salt > 0 || l.Spread > 0 || l.Water > 0 {
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
	cost := quantity.Money(float64(*salt)*float64(l.Salt+l.Spread) + float64(*water)*float64(l.Water))
	return &cost
}
