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

// pot is a tank.
type pot struct {
	in           sums
	of           string // name of the liquid
	known        bool
	first        time.Time
	made, sludge float64
	cleanings    [][2]float64 // made and sludge before each
	read, wanted float64      // true strength of the last reading, and by the entries
}

// ledger is a yard and the figures of a period.
type ledger struct {
	yard      *yard.Yard
	pots      map[string]*pot
	pile      float64
	pileKnown bool
	expected  float64            // on the pile before it was counted
	in        bool               // the period
	lines     map[string]string  // liquids, by the beginning of their path
	figures   map[string]float64 // by a path of words
	problems  map[int]int        // by entry
	strengths []float64          // of the batches of the period
	made      []journal.Entry    // those batches
	piles     []int              // places of counts among moves
	moves     []pileMove
	rows      []journal.Entry // loads of the truckload so far
	last      time.Time
}

// pileMove is what an entry of the period did to the pile and to the salt in brine.
type pileMove struct{ counted, delivered, inBrine float64 }

func newLedger(y *yard.Yard) *ledger {
	return &ledger{yard: y, pots: map[string]*pot{}, figures: map[string]float64{}, lines: map[string]string{}, problems: map[int]int{}}
}

func (l *ledger) pot(name string) *pot {
	if l.pots[name] == nil {
		l.pots[name] = &pot{of: "brine"}
	}
	return l.pots[name]
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

// add pours kg into a tank.
func (p *pot) add(s sums, name string) {
	switch {
	case s.total() == 0:
	case p.in.total() == 0:
		p.of = name
	case p.of == "":
		p.of = name
	case name != "" && name != p.of:
		p.of = "mixed"
	}
	p.in = p.in.plus(s)
	p.known = true
}

// draw takes a volume (m3) out of a tank, or what there is.
func (l *ledger) draw(e *journal.Entry, p *pot, v float64) sums {
	had := p.in.volume()
	if !p.known || v > had*1.001 {
		l.wrong(e)
	}
	share := 1.0
	if had > 0 {
		share = min(1, v/had)
	}
	out := p.in.times(share)
	if p.in = p.in.times(1 - share); p.in.total() < 1e-9 {
		p.in = sums{}
	}
	return out
}

// full flags a tank above its capacity.
func (l *ledger) full(e *journal.Entry, name string) {
	most := map[string]float64{"mixer": 1350, "north": 5200, "south": 2700}[name] * gallon
	if most > 0 && l.pot(name).in.volume() > most*1.001 {
		l.wrong(e)
	}
}

const gallon = float64(quantity.Gallon)

// rock is what kg of the yard's salt consist of: 3.8 % of the dry does not dissolve, and
// 1.6 % is water.
func rock(kg float64) (s sums, sludge float64) {
	dry := kg * (1 - 0.016)
	return sums{nacl: dry * 0.962, water: kg * 0.016}, dry * (1 - 0.962)
}

// freshDensity is kg/m3 of water at 46 F, by the same equation as the densities.
func freshDensity() float64 {
	rho, err := solution.Density(solution.Composition{}, float64(quantity.Fahrenheit(46)))
	if err != nil {
		panic(err) // the test's own fault
	}
	return rho
}

// strengthOf solves for the strength of brine of a density by halving.
func strengthOf(rho, kelvin float64) float64 {
	low, high := 0.0, 0.27
	for range 100 {
		middle := (low + high) / 2
		if there, err := solution.Density(solution.Brine(middle), kelvin); err == nil && there < rho {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// trueStrength is what a row's instrument, marked for 60 F, means. A glass that expands by
// 25e-6 a degree floats in a denser liquid at a mark when it is warm.
func trueStrength(e *journal.Entry) float64 {
	if e.NaCl != nil {
		return float64(*e.NaCl)
	}
	at := func(w float64) float64 {
		rho, _ := solution.Density(solution.Brine(w), solution.SixtyF)
		return rho
	}
	t, shown := float64(*e.Temp), *e.Reading
	glass := 1 + 25e-6*(t-solution.SixtyF)
	switch e.Scale {
	case "hydrometer":
		return strengthOf(at(shown/100)/glass, t)
	case "salometer":
		return strengthOf(at(shown/100*0.26395)/glass, t)
	case "sg":
		return strengthOf(at(0)*shown/glass, t)
	case "baume":
		return strengthOf(at(0)*145/(145-shown)/glass, t)
	case "weigh":
		return strengthOf(shown*float64(quantity.Pound/quantity.Mass(gallon)), t)
	}
	return math.NaN()
}
