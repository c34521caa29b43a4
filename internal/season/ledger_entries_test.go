package season

import (
	"math"

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
			l.flow("unexplained", -v, heel.times(-1))
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
		l.strengths = append(l.strengths, p.in[nacl]/p.in.total())
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
				l.strengths[i] = p.read
				if !salted || p.read >= 0.23-5e-6 && p.read <= 0.24+5e-6 {
					l.made[i].Note = "read"
				}
			}
			return
		}
	}
}
