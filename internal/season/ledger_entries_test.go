package season

import (
	"brineyard/internal/journal"
	"brineyard/internal/solution"
)

// post enters a row; in tells whether it lies in the period.
func (l *ledger) post(e *journal.Entry, in bool) {
	l.in = in
	if in {
		l.last = e.Time
		l.month = e.Time.Format("2006-01")
	}
	l.count("entries", 1)
	before := l.all()
	if !l.do(e) {
		l.wrong(e)
		l.count("left out", 1)
		return
	}
	l.count("paid", value(e.Cost))
	l.count("operator "+e.Operator+" entries", 1)
	l.count("operator "+e.Operator+" hours", value(e.Hours))
	l.count("operator "+e.Operator+" distance", value(e.Distance))
	l.count("hours", value(e.Hours))
	l.count("distance", value(e.Distance))
	l.said(e)
	after := l.all()
	for i, name := range substanceNames {
		l.count("across "+name, after[i]-before[i])
	}
	if in {
		l.months[l.month] = l.volumes()
	}
}

// said notes what a row was about.
func (l *ledger) said(e *journal.Entry) {
	dry := e.Kind == journal.Rinse && e.Water == nil
	for _, name := range []string{e.Tank, e.From} {
		if p := l.pots[name]; p != nil && !dry {
			p.said = true
		}
	}
	if p := l.beside[e.Liquid]; p != nil && e.Tank == "" && e.From == "" || p != nil && e.Kind == journal.Correction && e.From == "" && e.Volume != nil && e.NaCl == nil {
		p.said = true
	}
}

// do is what a row does; false where it makes no sense.
func (l *ledger) do(e *journal.Entry) bool {
	switch e.Kind {
	case journal.Batch:
		return l.batch(e)
	case journal.Reading:
		return l.reading(e)
	case journal.Correction:
		return l.correction(e)
	case journal.Transfer:
		return l.transfer(e)
	case journal.Load:
		return l.load(e)
	case journal.Unload:
		return l.unload(e)
	case journal.Delivery:
		return l.delivery(e)
	case journal.Spill, journal.Sale, journal.Loan, journal.Gift:
		return l.lost(e)
	case journal.Rinse:
		return l.rinse(e)
	case journal.Clean:
		l.clean(l.pot(e.Tank))
	case journal.Count:
		return l.found(e)
	}
	return true
}

// all is what stands in the tanks and beside them.
func (l *ledger) all() (s sums) {
	for _, p := range l.pots {
		s = s.plus(p.in)
	}
	for _, p := range l.beside {
		s = s.plus(p.in)
	}
	return s
}

// volumes is what stands of each liquid.
func (l *ledger) volumes() map[string]float64 {
	v := map[string]float64{}
	for _, pots := range []map[string]*pot{l.pots, l.beside} {
		for _, p := range pots {
			if p.in.total() > 0 {
				v[p.of] += p.in.volume()
			}
		}
	}
	return v
}

// put adds the salt and the water of a row, as far as the water takes the salt up, and returns
// the NaCl that dissolved and the fresh water.
func (l *ledger) put(p *pot, e *journal.Entry) (dissolved, fresh float64) {
	if e.Water != nil {
		fresh = value(e.Water)
		p.add(sums{water: fresh * freshDensity()}, "", true)
	}
	if e.Salt == nil {
		return 0, fresh
	}
	full := saturated / (1 - saturated)
	wet := p.in[water] + p.in[product]*(1-testProduct.Solute)
	most := max(0, (full*wet-p.in[nacl])/(l.rockPure-full*l.rockWet))
	salt := value(e.Salt)
	goes := min(salt, most)
	before := *p
	s, _ := l.rock(goes)
	p.add(s, "brine", true)
	if !p.canBe() {
		*p, goes = before, 0
	}
	if goes < salt {
		l.toBed(p, salt-goes)
	}
	l.use(p, salt)
	return goes * l.rockPure, fresh
}

// saturated is the strength of saturated brine at 60 F.
var saturated = func() float64 {
	w, _, err := solution.Anchored().Solubility(solution.NaCl, solution.SixtyF)
	if err != nil {
		panic(err) // the test's own fault
	}
	return w
}()

// canBe tells whether water takes up what is in a pot.
func (p *pot) canBe() bool {
	all := p.in.total()
	share := p.in.times(1 / all)
	c := solution.Composition{NaCl: share[nacl], KCl: share[kcl], CaCl2: share[cacl2], MgCl2: share[mgcl2], Other: share[product] * testProduct.Solute}
	return c.Check() == nil && c.NaCl <= 0.28 && (share[product] > 1-1e-12 || p.in.volume() > share[product]*all/testProduct.Density)
}

// toBed lays salt on the floor of a tank, or takes it off.
func (l *ledger) toBed(p *pot, salt float64) {
	before := p.bed
	p.bed = max(0, before+salt)
	l.count("pile on beds", (p.bed-before)*l.rockPure)
}

// use takes salt off the pile into a tank.
func (l *ledger) use(p *pot, kg float64) {
	_, sludge := l.rock(kg)
	p.sludge += sludge
	l.takeOff(kg)
}

// takeOff takes salt off the pile: of what is left, nothing is known of the quality.
func (l *ledger) takeOff(kg float64) {
	l.pile, l.pileSaid = l.pile-kg, true
	l.gone(kg)
	l.moved = l.moved || l.in && kg != 0
}

// gone counts salt that left the pile, with its quality.
func (l *ledger) gone(kg float64) {
	s, sludge := l.rock(kg)
	l.count("pile moisture", s[water])
	l.count("pile sludge", sludge)
}

// offPile takes salt off it, and finds an entry that takes more than there is.
func (l *ledger) offPile(e *journal.Entry, before float64) {
	if l.pileKnown && before >= 0 && l.pile < -0.001*before && l.pile < 0 {
		l.wrong(e)
	}
}

func (l *ledger) batch(e *journal.Entry) bool {
	s, name, ok := l.described(e)
	measured := e.Volume != nil && ok
	if !measured && e.Salt == nil && e.Water == nil {
		return false
	}
	l.count("operator "+e.Operator+" batches", 1)
	p, pile := l.pot(e.Tank), l.pile
	if p.first.IsZero() {
		p.first = e.Time
	}
	heel, v := p.in, p.in.volume()
	salt, run := value(e.Salt), value(e.Water)
	if measured {
		if v > value(e.Volume)/2 {
			l.wrong(e)
			l.flow("taken as gone", -v, heel.times(-1))
			heel, v = sums{}, 0
		}
		p.holds(s, name, value(e.Volume))
		salt, run = l.ingredients(e, p, p.in.plus(heel.times(-1)))
	} else {
		dissolved, _ := l.put(p, e)
		l.count("pile in brine", dissolved)
	}
	gain := p.in.volume() - v
	p.made += max(0, gain)
	p.inAll += max(0, gain)
	p.open, p.salted, p.undissolved = true, e.Salt != nil, 0
	l.offPile(e, pile)
	l.full(e, p)
	l.line(e, p.of, "made", gain)
	l.line(e, p.of, "salt", salt)
	l.line(e, p.of, "water", run)
	if l.in && gain > 0 && p.plain() {
		l.strengths, l.halves = append(l.strengths, p.in[nacl]/p.in.total()), append(l.halves, 0)
		l.made = append(l.made, *e)
	}
	return true
}

// plain tells whether a pot holds salt and water alone, or nothing else stood there.
func (p *pot) plain() bool {
	s := p.like
	return s[kcl]+s[cacl2]+s[mgcl2]+s[product] == 0
}

// ingredients are the salt and the water of what was measured.
func (l *ledger) ingredients(e *journal.Entry, p *pot, made sums) (salt, run float64) {
	inBrine := max(0, made[nacl])
	salt = inBrine / l.rockPure
	if e.Salt != nil {
		l.toBed(p, value(e.Salt)-salt)
		salt = value(e.Salt)
	}
	wet := made[water] + made[product]*(1-testProduct.Solute) - salt*l.rockWet
	run = max(0, wet) / freshDensity()
	if e.Water != nil {
		run = value(e.Water)
	}
	l.use(p, salt)
	l.count("pile in brine", inBrine)
	return salt, run
}

func (l *ledger) correction(e *journal.Entry) bool {
	composed := e.NaCl != nil || e.KCl != nil || e.CaCl2 != nil || e.MgCl2 != nil
	var from *pot
	outside := e.Volume != nil && e.From == "" && composed
	if e.Volume != nil && !outside {
		from = l.source(e)
	}
	if e.Tank == e.From || e.Salt == nil && e.Water == nil && e.Volume == nil || e.Volume != nil && !outside && from == nil {
		return false
	}
	p, pile := l.pot(e.Tank), l.pile
	name := p.of
	dissolved, run := l.put(p, e)
	l.count("pile in brine", dissolved)
	switch {
	case outside:
		s, of, _ := l.described(e)
		l.bought(e, of, value(e.Volume))
		l.flow("from outside", value(e.Volume), ofVolume(s, value(e.Volume)))
		p.add(ofVolume(s, value(e.Volume)), of, true)
	case from != nil:
		l.bought(e, from.of, value(e.Volume))
		out := l.draw(e, from, value(e.Volume))
		p.add(out, from.of, from.sure)
	}
	p.open, p.salted = true, p.salted || e.Salt != nil
	l.offPile(e, pile)
	l.full(e, p)
	l.line(e, name, "salt", value(e.Salt))
	l.line(e, name, "water", run)
	return true
}

// bought counts what is taken of a liquid that the yard buys.
func (l *ledger) bought(e *journal.Entry, liquid string, v float64) {
	if liquid == "cal31" || liquid == "syrup" {
		l.line(e, liquid, "used", v)
	}
}
