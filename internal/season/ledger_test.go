package season

import (
	"math"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
	"brineyard/internal/solution"
	"brineyard/internal/yard"
)

// The ledger keeps a yard by plain sums: kg of each substance in each tank, and figures by
// name. It shares neither the liquids of package balance nor any sum of state and season,
// only the density of a solution. TestAgainstLedger compares the two.

// The substances of a ledger; product is one as delivered.
const (
	water = iota
	nacl
	kcl
	cacl2
	mgcl2
	product
	substances
)

type sums [substances]float64

func (s sums) times(f float64) sums {
	for i := range s {
		s[i] *= f
	}
	return s
}

func (s sums) plus(o sums) sums {
	for i := range s {
		s[i] += o[i]
	}
	return s
}

func (s sums) total() (kg float64) {
	for _, x := range s {
		kg += x
	}
	return kg
}

// chloride is by the masses of atoms (CRC Handbook: Na 22.98977, K 39.0983, Ca 40.078, Mg
// 24.305, Cl 35.453).
func (s sums) chloride() float64 {
	const na, k, ca, mg, cl = 22.98977, 39.0983, 40.078, 24.305, 35.453
	return s[nacl]*cl/(na+cl) + s[kcl]*cl/(k+cl) + s[cacl2]*2*cl/(ca+2*cl) + s[mgcl2]*2*cl/(mg+2*cl)
}

// volume is m3 at 60 F: that of the solution and that of the product beside it.
func (s sums) volume() float64 {
	v := s[product] / testProduct.Density
	if rest := s.total() - s[product]; rest > 1e-12*s.total() {
		c := solution.Composition{NaCl: s[nacl] / rest, KCl: s[kcl] / rest, CaCl2: s[cacl2] / rest, MgCl2: s[mgcl2] / rest}
		rho, err := solution.Density(c, solution.SixtyF)
		if err != nil {
			return 0
		}
		v += rest / rho
	}
	return v
}

// pot is a tank, a truck, or what stands of a liquid beside the tanks.
type pot struct {
	name         string
	in           sums
	like         sums   // 1 kg of what stands there, or stood there last
	of           string // name of the liquid
	known        bool   // how much
	sure         bool   // what it is
	told         bool   // something stood there once
	beside       bool
	takes        float64 // to the brim; 0 for any
	first        time.Time
	made, sludge float64
	inAll        float64
	cleanings    [][2]float64 // made and sludge before each
	read, wanted float64      // true strength of the last reading, and by the entries
	bed          float64      // salt on the floor
	bedKnown     bool
	open, salted bool    // what was put in has not read in the band; salt is among it
	undissolved  float64 // kg of NaCl that readings since lie below that
	counted      bool    // a truck was, since it was loaded
	said         bool    // a row was about it
	route        string
	rows         []journal.Entry // of the truckload
}

// ledger is a yard and the figures of a period.
type ledger struct {
	yard      *yard.Yard
	pots      map[string]*pot
	trucks    map[string]*pot
	beside    map[string]*pot
	pile      float64
	pileSaid  bool
	rockWet   float64                       // of the salt on the pile: the part that is water
	rockPure  float64                       // and NaCl
	months    map[string]map[string]float64 // what stood at the end of each month
	month     string
	pileKnown bool
	expected  float64            // on the pile before it was counted
	in        bool               // the period
	lines     map[string]string  // liquids, by the beginning of their path
	figures   map[string]float64 // by a path of words
	problems  map[int]int        // by entry
	strengths []float64          // of the batches of the period
	halves    []float64          // of the ranges of strengths
	made      []journal.Entry    // those batches
	counts    int                // of the pile, in the period
	moved     bool               // the pile was, in the period
	last      time.Time
}

func newLedger(y *yard.Yard) *ledger {
	l := &ledger{
		yard: y, pots: map[string]*pot{}, trucks: map[string]*pot{}, beside: map[string]*pot{}, months: map[string]map[string]float64{},
		figures: map[string]float64{}, lines: map[string]string{}, problems: map[int]int{}, rockWet: 0.016, rockPure: 0.984 * 0.962,
	}
	l.pot("north").holds(brineOf(0.231), "brine", 2000*gallon)
	l.pile, l.pileKnown = 30000, true
	l.besidePot("syrup", sums{product: 1}).holds(sums{product: 1}, "syrup", 150*gallon)
	return l
}

func brineOf(w float64) sums { return sums{water: 1 - w, nacl: w} }

// holds makes a pot a volume of a liquid.
func (p *pot) holds(perKg sums, of string, v float64) {
	p.in, p.like, p.of = ofVolume(perKg, v), perKg, of
	p.known, p.sure, p.told = true, true, true
}

func (l *ledger) pot(name string) *pot {
	if l.pots[name] == nil {
		takes := map[string]float64{"mixer": 1350, "north": 5200, "south": 2700}[name] * gallon
		l.pots[name] = &pot{name: name, of: "brine", like: sums{water: 1}, takes: takes}
	}
	return l.pots[name]
}

func (l *ledger) truck(name string) *pot {
	if l.trucks[name] == nil {
		takes := map[string]float64{"big-sprayer": 700}[name] * gallon
		l.trucks[name] = &pot{name: name, like: sums{water: 1}, takes: takes}
	}
	return l.trucks[name]
}

func (l *ledger) besidePot(name string, perKg sums) *pot {
	if l.beside[name] == nil {
		l.beside[name] = &pot{name: name, like: perKg, of: name, sure: true, told: true, beside: true}
	}
	return l.beside[name]
}

// source is where a row takes its volume from; nil for nowhere.
func (l *ledger) source(e *journal.Entry) *pot {
	if e.From != "" {
		return l.pot(e.From)
	}
	if p := l.beside[e.Liquid]; p != nil {
		return p
	}
	s, _, ok := l.described(e)
	if e.Liquid == "" || !ok {
		return nil
	}
	return l.besidePot(e.Liquid, s)
}

func (l *ledger) wrong(e *journal.Entry) {
	if l.in {
		l.problems[e.Number]++
	}
}

// count adds to a figure of the period.
func (l *ledger) count(path string, x float64) {
	if l.in {
		l.figures[path] += x
	}
}

// line adds to the figures of the month and a liquid.
func (l *ledger) line(e *journal.Entry, liquid, figure string, x float64) {
	path := e.Time.Format("2006-01") + " " + liquid + " "
	l.count(path+figure, x)
	if l.in {
		l.lines[path] = liquid
	}
	if figure != "used" {
		l.count("total "+figure, x)
	}
}

// ofVolume pours kg of each substance out of a volume (m3) of a liquid.
func ofVolume(parts sums, v float64) sums { return parts.times(v / parts.volume()) }

// described is 1 kg of what a row says a liquid is, and its name.
func (l *ledger) described(e *journal.Entry) (sums, string, bool) {
	if e.NaCl == nil && e.KCl == nil && e.CaCl2 == nil && e.MgCl2 == nil {
		switch e.Liquid {
		case "brine":
			return sums{water: 1 - 0.233, nacl: 0.233}, "brine", true
		case "cal31":
			return sums{water: 0.69, cacl2: 0.31}, "cal31", true
		case "syrup":
			return sums{product: 1}, "syrup", true
		}
		if p := l.beside[e.Liquid]; p != nil {
			return p.like, p.of, true
		}
		return sums{}, "", false
	}
	s := sums{nacl: value(e.NaCl), kcl: value(e.KCl), cacl2: value(e.CaCl2), mgcl2: value(e.MgCl2)}
	s[water] = 1 - s.total()
	name := e.Liquid
	if name == "" && s[kcl]+s[cacl2]+s[mgcl2] == 0 {
		name = "brine"
	}
	return s, name, true
}

// value is that of a cell; 0 for an empty one.
func value[Q ~float64](p *Q) float64 {
	if p == nil {
		return 0
	}
	return float64(*p)
}

// add pours kg into a pot. What meets an unknown amount of something else is nobody knows what.
func (p *pot) add(s sums, name string, sure bool) {
	if s.total() == 0 {
		return
	}
	switch had := p.in.total(); {
	case had == 0 && p.known:
		p.sure = sure
	case alike(p.like, s):
		p.sure = p.sure && sure
	default:
		p.sure = p.sure && sure && p.known
	}
	switch {
	case p.in.total() == 0, p.of == "":
		p.of = name
	case name != "" && name != p.of:
		p.of = "mixed"
	}
	p.in = p.in.plus(s)
	p.like, p.told = p.in.times(1/p.in.total()), true
}

// alike tells whether two masses are of one liquid.
func alike(a, b sums) bool {
	for i := range a {
		if math.Abs(a[i]/a.total()-b[i]/b.total()) > 1e-12 {
			return false
		}
	}
	return true
}

// draw takes a volume (m3) out of a pot. What it did not hold is as what stood there last.
func (l *ledger) draw(e *journal.Entry, p *pot, v float64) sums {
	had := p.in.volume()
	if v <= had*(1+1e-12) {
		share := 0.0
		if had > 0 {
			share = min(1, v/had)
		}
		out := p.in.times(share)
		if p.in = p.in.times(1 - share); p.in.total() < 1e-9 {
			p.in = sums{}
		}
		return out
	}
	flow := "unexplained"
	switch {
	case p.beside && !p.known:
		flow = "from outside"
	case !p.known, v > had*1.001:
		l.wrong(e)
	}
	if !p.told {
		p.like, p.of, p.told, p.sure = brineOf(0.233), "brine", true, false
	}
	lacking := ofVolume(p.like, v-had)
	l.flow(flow, v-had, lacking)
	out := p.in.plus(lacking)
	p.in = sums{}
	return out
}

// flow adds to what came or left in some way.
func (l *ledger) flow(how string, v float64, s sums) {
	l.count("flow "+how+" volume", v)
	l.count("flow "+how+" nacl", s[nacl])
}

// full flags a vessel above its capacity.
func (l *ledger) full(e *journal.Entry, p *pot) {
	if p.takes > 0 && p.in.volume() > p.takes*1.001 {
		l.wrong(e)
	}
}

// drawn closes what is open in a tank when most of it leaves.
func (p *pot) drawn(v float64) {
	if v > p.in.volume()/2 {
		p.open, p.salted, p.undissolved = false, false, 0
	}
}

const gallon = float64(quantity.Gallon)
