package season

import (
	"brineyard/internal/journal"
)

func (l *ledger) transfer(e *journal.Entry) bool {
	if e.Volume == nil || e.From == e.Tank {
		return false
	}
	from, to := l.pot(e.From), l.pot(e.Tank)
	if to.in.total() > 0 && to.of != from.of {
		l.bought(e, from.of, value(e.Volume))
	}
	from.drawn(value(e.Volume))
	out := l.draw(e, from, value(e.Volume))
	l.line(e, from.of, "moved", value(e.Volume))
	to.add(out, from.of, from.sure)
	l.full(e, to)
	return true
}

func (l *ledger) load(e *journal.Entry) bool {
	var from *pot
	if e.Volume != nil {
		from = l.source(e)
	}
	if e.Volume == nil && e.Salt == nil || e.Volume != nil && from == nil {
		return false
	}
	further := e.Truck != "" && l.truck(e.Truck).goesOn(e)
	l.route(e, further)
	if e.Salt != nil {
		pile := l.pile
		l.spread(e, value(e.Salt))
		l.offPile(e, pile)
	}
	if from == nil {
		return true
	}
	of := e.Liquid
	l.bought(e, from.of, value(e.Volume))
	if e.From != "" {
		from.drawn(value(e.Volume))
	}
	out := l.draw(e, from, value(e.Volume))
	if of == "" {
		of = from.of
	}
	l.laid(e, e.Route, of, value(e.Volume), out)
	if e.Truck != "" {
		k := l.truck(e.Truck)
		if !k.counted && !further {
			k.in = sums{}
		}
		k.known, k.counted = true, false
		k.add(out, of, from.sure)
		l.full(e, k)
	}
	return true
}

// laid counts what was laid down, or what came back, below nothing.
func (l *ledger) laid(e *journal.Entry, route, of string, v float64, s sums) {
	l.flow("laid", -v, s.times(-1))
	l.line(e, of, "laid", v)
	l.line(e, of, "nacl", s[nacl])
	l.line(e, of, "chloride", s.chloride())
	if route != "" {
		l.count("route "+route+" volume", v)
		l.count("route "+route+" chloride", s.chloride())
	}
}

// spread takes dry salt off the pile onto the road.
func (l *ledger) spread(e *journal.Entry, kg float64) {
	s, _ := l.rock(kg)
	l.takeOff(kg)
	l.count("pile spread", s[nacl])
	l.line(e, "dry salt", "spread", kg)
	l.line(e, "dry salt", "nacl", s[nacl])
	l.line(e, "dry salt", "chloride", s.chloride())
	if e.Route != "" {
		l.count("route "+e.Route+" salt", kg)
		l.count("route "+e.Route+" chloride", s.chloride())
	}
}

// route counts the loads. A truckload goes on while its rows name one truck, one route and one
// blend, each row another tank, an hour at most apart.
func (l *ledger) route(e *journal.Entry, further bool) {
	if further {
		return
	}
	l.count("operator "+e.Operator+" loads", 1)
	if e.Route != "" {
		l.count("route "+e.Route+" loads", 1)
	}
}

func (k *pot) goesOn(e *journal.Entry) bool {
	further := len(k.rows) > 0 && e.Liquid != ""
	for i, r := range k.rows {
		further = further && r.From != e.From && r.Route == e.Route && r.Liquid == e.Liquid
		if i == len(k.rows)-1 {
			further = further && e.Time.Sub(r.Time).Hours() <= 1
		}
	}
	if !further {
		k.rows = nil
	}
	k.rows = append(k.rows, *e)
	k.route = e.Route
	return further
}

func (l *ledger) unload(e *journal.Entry) bool {
	k := l.truck(e.Truck)
	if e.Volume == nil || !k.told {
		return false
	}
	p, v, had := l.pot(e.Tank), value(e.Volume), k.in.volume()
	route := k.route
	if e.Route != "" {
		route = e.Route
	}
	back, off := min(had, v), sums{}
	if back > 0 {
		off = ofVolume(k.like, back)
	}
	l.laid(e, route, k.of, -back, off.times(-1))
	if v > back {
		lacking := ofVolume(k.like, v-back)
		l.flow("unexplained", v-back, lacking)
		off = off.plus(lacking)
		if v > had*1.001 {
			l.wrong(e)
		}
	}
	p.add(off, k.of, k.sure)
	l.full(e, p)
	k.in, k.known, k.counted, k.rows = sums{}, true, false, nil
	return true
}
