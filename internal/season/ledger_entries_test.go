package season

import (
	"math"

	"brineyard/internal/journal"
)

// post enters a row; in tells whether it lies in the period.
func (l *ledger) post(e *journal.Entry, in bool) {
	l.in = in
	if in {
		l.last = e.Time
	}
	l.count("entries", 1)
	l.count("paid", value(e.Cost))
	l.count("operator "+e.Operator+" entries", 1)
	before := l.all()
	switch e.Kind {
	case journal.Batch:
		l.batch(e)
	case journal.Reading:
		l.reading(e)
	case journal.Correction:
		l.correction(e)
	case journal.Transfer:
		l.transfer(e)
	case journal.Load:
		l.load(e)
	case journal.Delivery:
		l.delivery(e)
	case journal.Clean:
		p := l.pot(e.Tank)
		p.cleanings = append(p.cleanings, [2]float64{p.made, p.sludge})
		p.in, p.known, p.made, p.sludge = sums{}, true, 0, 0
	case journal.Count:
		l.found(e)
	}
	after := l.all()
	for i, name := range []string{"water", "nacl", "kcl", "cacl2", "mgcl2", "product"} {
		l.count("across "+name, after[i]-before[i])
	}
}

// all is what stands in the tanks.
func (l *ledger) all() (s sums) {
	for _, p := range l.pots {
		s = s.plus(p.in)
	}
	return s
}

// putIn adds the salt and the water of a row.
func (l *ledger) putIn(p *pot, e *journal.Entry) {
	if e.Salt != nil {
		s, _ := rock(value(e.Salt))
		p.add(s, "brine")
	}
	if e.Water != nil {
		p.add(sums{water: value(e.Water) * freshDensity()}, "")
	}
}

// use takes salt off the pile.
func (l *ledger) use(p *pot, kg float64) {
	l.pile -= kg
	_, sludge := rock(kg)
	p.sludge += sludge
}

func (l *ledger) batch(e *journal.Entry) {
	l.count("operator "+e.Operator+" batches", 1)
	p := l.pot(e.Tank)
	if p.first.IsZero() {
		p.first = e.Time
	}
	heel, v := p.in, p.in.volume()
	s, name, ok := l.described(e)
	switch {
	case e.Volume != nil && ok:
		p.in, p.of, p.known = ofVolume(s, value(e.Volume)), name, true
		if v > value(e.Volume)/2 {
			l.wrong(e)
			heel, v = sums{}, 0
		}
	case e.Salt != nil || e.Water != nil:
		l.putIn(p, e)
	default:
		l.wrong(e)
		return
	}
	gain, made := p.in.volume()-v, p.in.plus(heel.times(-1))
	p.made += max(0, gain)
	l.ingredients(e, p, made)
	l.full(e, e.Tank)
	l.line(e, p.of, "made", gain)
	if l.in && gain > 0 && p.in[kcl]+p.in[cacl2]+p.in[mgcl2]+p.in[product] == 0 {
		l.strengths = append(l.strengths, p.in[nacl]/p.in.total())
		l.made = append(l.made, *e)
	}
}

// ingredients counts the salt and the water of what was made.
func (l *ledger) ingredients(e *journal.Entry, p *pot, made sums) {
	perKg, _ := rock(1)
	salt := max(0, made[nacl]) / perKg[nacl]
	if e.Salt != nil {
		salt = value(e.Salt)
	}
	wet := made[water] + made[product]*(1-testProduct.Solute) - salt*perKg[water]
	run := max(0, wet) / freshDensity()
	if e.Water != nil {
		run = value(e.Water)
	}
	l.use(p, salt)
	l.movePile(pileMove{inBrine: max(0, made[nacl])})
	l.line(e, p.of, "salt", salt)
	l.line(e, p.of, "water", run)
}

// movePile notes what an entry of the period did to the pile.
func (l *ledger) movePile(m pileMove) {
	if l.in {
		l.moves = append(l.moves, m)
	}
}

func (l *ledger) correction(e *journal.Entry) {
	p := l.pot(e.Tank)
	name := p.of
	l.putIn(p, e)
	if e.Salt != nil {
		l.use(p, value(e.Salt))
		s, _ := rock(value(e.Salt))
		l.movePile(pileMove{inBrine: s[nacl]})
	}
	if e.Volume != nil && e.From == "" {
		if s, of, ok := l.described(e); ok {
			p.add(ofVolume(s, value(e.Volume)), of)
		} else {
			l.wrong(e)
		}
		l.bought(e, e.Liquid, value(e.Volume))
	}
	if e.Volume != nil && e.From != "" {
		l.bought(e, l.pot(e.From).of, value(e.Volume))
		of := l.pot(e.From).of
		p.add(l.draw(e, l.pot(e.From), value(e.Volume)), of)
	}
	l.full(e, e.Tank)
	l.line(e, name, "salt", value(e.Salt))
	l.line(e, name, "water", value(e.Water))
}

// bought counts what is taken of a liquid that the yard buys.
func (l *ledger) bought(e *journal.Entry, liquid string, v float64) {
	if liquid == "cal31" || liquid == "syrup" {
		l.line(e, liquid, "used", v)
	}
}

func (l *ledger) transfer(e *journal.Entry) {
	if e.Volume == nil || e.From == "" || e.Tank == "" {
		l.wrong(e)
		return
	}
	from, to := l.pot(e.From), l.pot(e.Tank)
	if to.in.total() > 0 && to.of != from.of {
		l.bought(e, from.of, value(e.Volume))
	}
	of := from.of
	to.add(l.draw(e, from, value(e.Volume)), of)
	l.full(e, e.Tank)
}

func (l *ledger) load(e *journal.Entry) {
	of, v, out := e.Liquid, 0.0, sums{}
	if e.Volume == nil {
		l.wrong(e)
	} else {
		p := l.pot(e.From)
		if of == "" {
			of = p.of
		}
		v = min(value(e.Volume), p.in.volume())
		l.bought(e, p.of, v)
		out = l.draw(e, p, value(e.Volume))
	}
	if e.Volume == nil {
		of = ""
	}
	l.line(e, of, "laid", v)
	l.line(e, of, "nacl", out[nacl])
	l.line(e, of, "chloride", out.chloride())
	l.route(e, v, out.chloride())
}

// route adds to the operator and the route. A truckload goes on while its rows name one
// truck, one route and one blend, each row another tank, an hour at most apart.
func (l *ledger) route(e *journal.Entry, v, chloride float64) {
	if !l.in {
		return
	}
	further := len(l.rows) > 0 && e.Truck != "" && e.Liquid != ""
	for i, r := range l.rows {
		further = further && r.From != e.From && r.Truck == e.Truck && r.Route == e.Route && r.Liquid == e.Liquid
		if i == len(l.rows)-1 {
			further = further && e.Time.Sub(r.Time).Hours() <= 1
		}
	}
	loads := 0.0
	if !further {
		l.rows, loads = nil, 1
	}
	l.rows = append(l.rows, *e)
	l.count("operator "+e.Operator+" loads", loads)
	if e.Route != "" {
		l.count("route "+e.Route+" loads", loads)
		l.count("route "+e.Route+" volume", v)
		l.count("route "+e.Route+" chloride", chloride)
	}
}

func (l *ledger) delivery(e *journal.Entry) {
	if e.Salt != nil {
		l.pile += value(e.Salt)
		l.pileKnown = true
		l.movePile(pileMove{delivered: value(e.Salt)})
		return
	}
	s, name, ok := l.described(e)
	if !ok || e.Volume == nil {
		l.wrong(e)
		return
	}
	l.pot(e.Tank).add(ofVolume(s, value(e.Volume)), name)
	l.full(e, e.Tank)
	l.line(e, name, "delivered", value(e.Volume))
}

// found is a count.
func (l *ledger) found(e *journal.Entry) {
	if e.Salt != nil && (e.Tank == "" || e.Tank == "pile") {
		if l.pileKnown {
			l.expected = l.pile
		}
		l.pile, l.pileKnown = value(e.Salt), true
		if l.in {
			l.piles = append(l.piles, len(l.moves))
		}
		l.movePile(pileMove{counted: value(e.Salt)})
		return
	}
	if e.Volume == nil {
		l.wrong(e)
		return
	}
	p := l.pot(e.Tank)
	had, v := p.in.volume(), value(e.Volume)
	if p.known && math.Abs(v-had) > 0.05*math.Max(v, had) {
		l.wrong(e)
	}
	s, name, ok := l.described(e)
	switch {
	case ok:
		p.in, p.of, p.known = ofVolume(s, v), name, true
	case v == 0:
		p.in, p.known = sums{}, true
	case p.known && had > 0:
		p.in = p.in.times(v / had)
	case p.known && p.in.total() > 0: // of a density that nobody knows
	default:
		l.wrong(e)
	}
}

func (l *ledger) reading(e *journal.Entry) {
	p := l.pot(e.Tank)
	if e.NaCl == nil && (e.Reading == nil || e.Temp == nil) {
		l.wrong(e)
		return
	}
	p.read = trueStrength(e)
	p.wanted = p.in[nacl] / p.in.total() // NaN in an empty tank
	plain := p.in[kcl]+p.in[cacl2]+p.in[mgcl2]+p.in[product] == 0
	if !plain {
		p.wanted = math.NaN()
	}
	if plain && math.Abs(p.read-p.wanted) > 0.002 {
		l.wrong(e)
	}
	for i := len(l.made) - 1; i >= 0 && l.in; i-- {
		if l.made[i].Tank == e.Tank {
			if l.made[i].Note == "" {
				l.strengths[i], l.made[i].Note = p.read, "read"
			}
			return
		}
	}
}
