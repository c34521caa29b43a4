package season

import (
	"math"

	"brineyard/internal/journal"
)

func (l *ledger) delivery(e *journal.Entry) bool {
	if e.Salt != nil {
		l.deliverSalt(e)
		return true
	}
	s, name, ok := l.described(e)
	if !ok || e.Volume == nil || e.Tank == "" && e.Liquid == "" {
		return false
	}
	p := l.besideOrTank(e, s)
	p.add(ofVolume(s, value(e.Volume)), name, true)
	l.full(e, p)
	l.line(e, name, "delivered", value(e.Volume))
	l.flow("delivered", value(e.Volume), ofVolume(s, value(e.Volume)))
	return true
}

func (l *ledger) besideOrTank(e *journal.Entry, s sums) *pot {
	if e.Tank != "" {
		return l.pot(e.Tank)
	}
	return l.besidePot(e.Liquid, s)
}

// deliverSalt mixes what came into the pile.
func (l *ledger) deliverSalt(e *journal.Entry) {
	came, purity, moisture := value(e.Salt), 0.962, 0.016
	if e.Purity != nil {
		purity = float64(*e.Purity)
	}
	if e.Moisture != nil {
		moisture = float64(*e.Moisture)
	}
	pure := (1 - moisture) * purity
	if had := max(0, l.pile); had+came > 0 {
		l.rockWet = (had*l.rockWet + came*moisture) / (had + came)
		l.rockPure = (had*l.rockPure + came*pure) / (had + came)
	}
	l.pile, l.pileSaid = l.pile+came, true
	l.count("pile delivered", came)
	l.moved = l.moved || l.in && came != 0
}

// lost is salt or a liquid that was spilled, sold, lent or given away.
func (l *ledger) lost(e *journal.Entry) bool {
	how := map[journal.Kind]string{journal.Spill: "spilled", journal.Sale: "sold", journal.Loan: "lent", journal.Gift: "given"}[e.Kind]
	if e.Salt != nil {
		pile := l.pile
		s, _ := l.rock(value(e.Salt))
		l.takeOff(value(e.Salt))
		l.count("pile spread", s[nacl])
		l.count("flow "+how+" salt", -value(e.Salt))
		l.offPile(e, pile)
		return true
	}
	if e.Volume == nil {
		return false
	}
	p := l.source(e)
	if p == nil {
		return false
	}
	if e.From != "" {
		p.drawn(value(e.Volume))
	}
	out := l.draw(e, p, value(e.Volume))
	l.flow(how, -value(e.Volume), out.times(-1))
	return true
}

func (l *ledger) rinse(e *journal.Entry) bool {
	if e.Line == "" {
		return false
	}
	l.count("rinsed", value(e.Water))
	if e.Tank == "" || e.Water == nil {
		return true
	}
	p := l.pot(e.Tank)
	p.add(sums{water: value(e.Water) * freshDensity()}, "", true)
	l.full(e, p)
	return true
}

func (l *ledger) clean(p *pot) {
	l.flow("cleaned", -p.in.volume(), p.in.times(-1))
	p.cleanings = append(p.cleanings, [2]float64{p.made, p.sludge})
	p.in, p.known, p.sure, p.made, p.sludge = sums{}, true, true, 0, 0
	p.bed, p.bedKnown, p.open, p.salted, p.undissolved = 0, true, false, false, 0
}

// found is a count.
func (l *ledger) found(e *journal.Entry) bool {
	s, name, ok := l.described(e)
	composed := e.NaCl != nil
	switch {
	case e.Salt != nil && e.Truck == "" && (e.Tank == "" || e.Tank == "pile"):
		l.foundPile(value(e.Salt))
	case e.Salt != nil && e.Truck == "":
		if e.Tank == "north" || e.Tank == "south" {
			return false
		}
		p := l.pot(e.Tank)
		if p.bedKnown {
			l.count("pile on beds", (value(e.Salt)-p.bed)*l.rockPure)
		}
		p.bed, p.bedKnown = value(e.Salt), true
	case e.Volume == nil:
		return false
	case e.Truck != "":
		k := l.truck(e.Truck)
		if !ok && !k.told && *e.Volume > 0 {
			return false
		}
		l.sets(k, s, name, ok, value(e.Volume))
		k.counted, k.rows = true, nil
		l.full(e, k)
	case e.Tank != "":
		return l.foundIn(e, l.pot(e.Tank), s, name, ok)
	case ok && e.Liquid != "":
		return l.foundIn(e, l.besidePot(e.Liquid, s), s, e.Liquid, composed)
	default:
		return false
	}
	return true
}

func (l *ledger) foundPile(kg float64) {
	if l.pileKnown && l.pileSaid {
		l.expected = l.pile
	}
	l.pileSaid = true
	if first := l.counts == 0 && !l.moved; first || !l.pileKnown {
		l.count("pile opening", kg-l.pile)
	} else {
		l.gone(l.pile - kg)
	}
	l.count("flow counted salt", kg-l.pile)
	l.pile, l.pileKnown = kg, true
	if l.in {
		l.counts++
	}
}

// foundIn sets a tank, or what stands beside the tanks.
func (l *ledger) foundIn(e *journal.Entry, p *pot, s sums, name string, ok bool) bool {
	had, v := p.in.volume(), value(e.Volume)
	if !ok && !p.told && v > 0 {
		return false
	}
	before, how := p.in, "found"
	if p.known {
		how = "counted"
		if p.said && math.Abs(v-had) > 0.05*math.Max(v, had) {
			l.wrong(e)
		}
	}
	l.sets(p, s, name, ok, v)
	l.flow(how, p.in.volume()-had, p.in.plus(before.times(-1)))
	l.full(e, p)
	return true
}

// sets makes a pot a volume of a liquid, or of what it is.
func (l *ledger) sets(p *pot, s sums, name string, ok bool, v float64) {
	if ok {
		p.holds(s, name, v)
		return
	}
	p.in, p.known, p.sure = sums{}, true, p.sure || v == 0
	if v > 0 {
		p.in = ofVolume(p.like, v)
	}
}

func (l *ledger) reading(e *journal.Entry) bool {
	if e.NaCl == nil && (e.Reading == nil || e.Temp == nil) {
		return false
	}
	p := l.pot(e.Tank)
	p.read, p.wanted = trueStrength(e), math.NaN()
	comparable := p.in.total() > 0 && p.plain() && p.sure
	if comparable {
		p.wanted = p.in[nacl] / p.in.total()
	}
	solid := p.undissolved + p.bed*l.rockPure
	dissolving := p.salted && p.read < (p.in[nacl]+solid)/(p.in.total()+solid)+0.002+5e-6
	if comparable && !dissolving && math.Abs(p.read-p.wanted) > 0.002+5e-6 {
		l.wrong(e)
	}
	salted := p.salted
	if p.read >= 0.23-5e-6 && p.read <= 0.24+5e-6 {
		p.open, p.salted, p.undissolved = false, false, 0
	}
	l.judge(e, p, salted)
	if !p.plain() {
		return true
	}
	v, before := p.in.volume(), p.in
	p.like, p.sure, p.told = brineOf(p.read), true, true
	if p.of == "" {
		p.of = "brine"
	}
	if v > 0 {
		p.in = ofVolume(p.like, v)
	}
	p.undissolved = max(0, p.undissolved+before[nacl]-p.in[nacl])
	l.flow("read", p.in.volume()-v, p.in.plus(before.times(-1)))
	return true
}

// judge lets the first reading after a batch say how strong it came out.
func (l *ledger) judge(e *journal.Entry, p *pot, salted bool) {
	for i := len(l.made) - 1; i >= 0 && l.in; i-- {
		if l.made[i].Tank == e.Tank {
			if l.made[i].Note == "" {
				l.strengths[i], l.halves[i] = p.read, halfRange(e)
				if !salted || p.read >= 0.23-5e-6 && p.read <= 0.24+5e-6 {
					l.made[i].Note = "read"
				}
			}
			return
		}
	}
}
