package ready

import (
	"math"

	"brineyard/internal/balance"
	"brineyard/internal/quantity"
)

// Past is what a yard's mixer did in batches before; zero for no such batch.
type Past struct {
	Tanks int // of which it is known
	Stuck int // of them, that stopped below the target
	// Rate is ln of k in 1/s, and Level by how much it levels off below saturation: mean and spread of the next batch.
	Rate, Level Spread
}

// Spread is a mean with the standard deviation of a next value; zero for not known.
type Spread struct{ Mean, Deviation float64 }

// pastTanks is how many tanks the chance of one that stops weighs as beforehand.
const pastTanks = 20

// stuck is the chance beforehand that a tank stops below its target.
func (p Past) stuck() float64 {
	return (priorStuck*pastTanks + float64(p.Stuck)) / float64(pastTanks+p.Tanks)
}

// rate and level weigh a value by the past, with tails that let a tank be another one today.
func (p Past) rate(log float64) float64  { return p.Rate.weight(log) }
func (p Past) level(gap float64) float64 { return p.Level.weight(gap) }

func (s Spread) weight(x float64) float64 {
	if s.Deviation == 0 {
		return 1
	}
	z := (x - s.Mean) / s.Deviation
	return math.Pow(1+z*z/pastTails, -(pastTails+1)/2.0)
}

const (
	// pastTails are the degrees of freedom of Student's distribution of a next batch.
	pastTails = 4
	// leastPast are the readings from which on a batch tells something of the next.
	leastPast = 3
)

// How much batches of one mixer differ where one alone is known: the rate by half, the level by half a percent of salt.
// Common practice, no source.
const (
	usualRate  = 0.4
	usualLevel = 0.005
)

// Learn takes from batches before what they tell of the next one. Those with too few readings, with readings that are no
// brine's, and those of the other kind (a measured charge, or a bed in excess) tell nothing.
func Learn(before []Request, charge bool) Past {
	var p Past
	var rate, level sample
	for _, r := range before {
		out, points, err := r.points()
		if err != nil || len(points) < leastPast || r.charge(out.Saturation) != charge {
			continue
		}
		target := float64(r.Band.Target)
		o := look(points, r.question(out.Saturation))
		p.Tanks++
		if points[len(points)-1].s < target && o.never > 0.5 {
			p.Stuck++
			continue
		}
		rate.add(o.rate)
		level.add(o.level)
	}
	p.Rate, p.Level = rate.next(usualRate), level.next(usualLevel)
	return p
}

// sample collects values, each with its own spread.
type sample struct{ n, sum, squares, own float64 }

func (s *sample) add(x Spread) {
	s.n, s.sum, s.squares, s.own = s.n+1, s.sum+x.Mean, s.squares+x.Mean*x.Mean, s.own+x.Deviation*x.Deviation
}

// next is the next value: the mean, with the spread between the values, which counts as one value more that lies as far off
// as usual. What each is unsure of by itself is in their spread already, but for a single one.
func (s *sample) next(usual float64) Spread {
	if s.n == 0 {
		return Spread{}
	}
	mean := s.sum / s.n
	between := (math.Max(0, s.squares-s.n*mean*mean) + usual*usual) / s.n
	return Spread{mean, math.Sqrt(between*(1+1/s.n) + s.own/s.n/s.n)}
}

// MeasuredCharge reports whether the request is of a measured charge that ends below saturation at a temperature.
// Errors: fault.InputError for a temperature of no brine.
func (r Request) MeasuredCharge(t quantity.Temperature) (bool, error) {
	full, err := balance.Saturation(t)
	return err == nil && r.charge(full), err
}

// charge reports whether the request is of a measured charge that ends below saturation.
func (r Request) charge(saturation quantity.Strength) bool {
	return r.End > 0 && r.End < saturation-leastExcessSalt
}

// leastExcessSalt is how far below saturation a charge has to end to be told from a bed in excess.
const leastExcessSalt = 0.0015

func (r Request) question(saturation quantity.Strength) question {
	q := question{saturation: float64(saturation), target: float64(r.Band.Target), high: float64(r.Band.High), past: r.Past}
	if r.charge(saturation) {
		q.end = float64(r.End)
	}
	return q
}
